// @medplum/core names the global WebSocket when it is loaded, which Node 20 has only behind a flag. Nothing here opens one.
// Import this before @medplum/core.
globalThis.WebSocket ??= class {
  constructor() { throw new Error('There is no WebSocket here'); }
};
