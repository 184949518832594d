// An authorization server for SMART Backend Services: npm oidc-provider, client credentials with signed assertions.
// Usage: node backend-server.mjs CLIENTS.json --port N --aud FHIR_BASE
//   CLIENTS.json   [{ "client_id": "…", "jwks": { "keys": […] }, "scope": "system/…" }]
//   --aud          the FHIR base the tokens are for
// smart-configuration is added here; the rest is the package's. The first line printed says where it listens.
// Binds 127.0.0.1 only. Exit codes: 1 the port is taken, 2 usage.
import { generateKeyPairSync } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import Provider, { errors } from 'oidc-provider';

let arg, clients;
try {
  const read = parseArgs({ allowPositionals: true, options: { port: { type: 'string' }, aud: { type: 'string' } } });
  [arg, clients] = [read.values, JSON.parse(readFileSync(read.positionals[0], 'utf8'))];
  if (!arg.port || !arg.aud) throw new Error('--port and --aud are needed');
} catch (problem) { console.error(problem.message); process.exit(2); }
const issuer = `http://127.0.0.1:${arg.port}`;
const scopes = ['Patient', 'Observation', 'DiagnosticReport', 'QuestionnaireResponse', 'Provenance', 'Device', '*'].flatMap((type) => ['rs', 'cruds'].map((what) => `system/${type}.${what}`));
const algorithms = ['RS384', 'ES384'];
const signing = { ...generateKeyPairSync('ec', { namedCurve: 'P-256' }).privateKey.export({ format: 'jwk' }), use: 'sig', alg: 'ES256', kid: 'backend-1' };

const provider = new Provider(issuer, {
  jwks: { keys: [signing] },
  clients: clients.map((client) => ({ grant_types: ['client_credentials'], redirect_uris: [], response_types: [], token_endpoint_auth_method: 'private_key_jwt',
    id_token_signed_response_alg: 'ES256', ...client })),
  scopes,
  clientAuthMethods: ['private_key_jwt'],
  enabledJWA: { clientAuthSigningAlgValues: algorithms, idTokenSigningAlgValues: ['ES256'] },
  features: {
    devInteractions: { enabled: false },
    clientCredentials: { enabled: true },
    resourceIndicators: { enabled: true, defaultResource: () => arg.aud, useGrantedResource: () => true,
      getResourceServerInfo: (ctx, resource) => {
        if (resource !== arg.aud) throw new errors.InvalidTarget();
        return { scope: scopes.join(' '), audience: resource, accessTokenTTL: 300, accessTokenFormat: 'jwt', jwt: { sign: { alg: 'ES256' } } };
      } },
  },
});
provider.use(async (ctx, next) => {
  if (ctx.path !== '/.well-known/smart-configuration') return next();
  ctx.body = { issuer, jwks_uri: `${issuer}/jwks`, token_endpoint: `${issuer}/token`, grant_types_supported: ['client_credentials'],
    token_endpoint_auth_methods_supported: ['private_key_jwt'], token_endpoint_auth_signing_alg_values_supported: algorithms,
    scopes_supported: scopes, capabilities: ['client-confidential-asymmetric', 'permission-v2'] };
});
provider.listen(Number(arg.port), '127.0.0.1', () => console.log(`authorization server ${issuer}`)).on('error', (problem) => { console.error(problem.message); process.exit(1); });
