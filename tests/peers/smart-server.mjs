// An authorization server for SMART App Launch in front of fhir-server.mjs: npm oidc-provider, authorization code with PKCE.
// Usage: node smart-server.mjs --port N --aud FHIR_BASE --client ID --redirect URL
//   --aud       the only FHIR base it gives access to; another aud is refused with invalid_target
//   --redirect  the only address it sends codes to
// In place of a sign-in page it waits at /interaction/UID for /interaction/UID/as/MODE?patient=ID[&report=ID], where MODE is
//   allow    everything asked for        less     everything but Observation
//   brief    access for one second       nobody   without a patient
//   refuse   the user does not agree
// What SMART has beside OAuth (smart-configuration, aud, patient, fhirContext) is added here; the rest is the package's.
// The first line printed says where it listens. Binds 127.0.0.1 only. Exit codes: 1 the port is taken, 2 usage.
import { generateKeyPairSync } from 'node:crypto';
import { parseArgs } from 'node:util';
import Provider, { errors } from 'oidc-provider';

const required = (name) => { console.error(`--${name} is missing`); process.exit(2); };
let arg;
try { arg = parseArgs({ options: Object.fromEntries(['port', 'aud', 'client', 'redirect'].map((n) => [n, { type: 'string' }])) }).values; } catch (problem) { console.error(problem.message); process.exit(2); }
for (const name of ['port', 'aud', 'client', 'redirect']) arg[name] ?? required(name);
const issuer = `http://127.0.0.1:${arg.port}`;
const scopes = ['launch', 'launch/patient', ...['Patient', 'Observation', 'DiagnosticReport', 'QuestionnaireResponse', 'Device'].map((type) => `patient/${type}.rs`)];
const signing = { ...generateKeyPairSync('ec', { namedCurve: 'P-256' }).privateKey.export({ format: 'jwk' }), use: 'sig', alg: 'ES256', kid: 'smart-1' };
const users = new Map();

const provider = new Provider(issuer, {
  jwks: { keys: [signing] },
  clients: [{ client_id: arg.client, redirect_uris: [arg.redirect], grant_types: ['authorization_code'], response_types: ['code'], token_endpoint_auth_method: 'none',
    id_token_signed_response_alg: 'ES256' }],
  scopes,
  cookies: { keys: ['only for tests'] },
  pkce: { required: () => true },
  extraParams: { launch: null, aud(ctx, value) { if (value !== arg.aud) throw new errors.InvalidTarget(`aud is not ${arg.aud}`); } },
  findAccount: (ctx, id) => ({ accountId: id, claims: () => ({ sub: id }) }),
  interactions: { url: (ctx, { uid }) => `/interaction/${uid}` },
  features: {
    devInteractions: { enabled: false },
    resourceIndicators: { enabled: true, defaultResource: () => arg.aud, useGrantedResource: () => true,
      getResourceServerInfo: (ctx, resource) => ({ scope: scopes.join(' '), audience: resource, accessTokenFormat: 'jwt', jwt: { sign: { alg: 'ES256' } },
        accessTokenTTL: users.get(ctx.oidc.entities.AuthorizationCode?.accountId)?.mode === 'brief' ? 1 : 300 }) },
  },
});
provider.use(async (ctx, next) => {
  if (ctx.path === '/.well-known/smart-configuration') {
    ctx.body = { issuer, jwks_uri: `${issuer}/jwks`, authorization_endpoint: `${issuer}/auth`, token_endpoint: `${issuer}/token`, grant_types_supported: ['authorization_code'],
      scopes_supported: scopes, code_challenge_methods_supported: ['S256'], capabilities: ['launch-ehr', 'launch-standalone', 'client-public', 'context-ehr-patient', 'permission-patient', 'permission-v2'] };
    return;
  }
  const [, uid, mode] = /^\/interaction\/([\w-]+)(?:\/as\/(\w+))?$/.exec(ctx.path) ?? [];
  if (!uid) {
    await next();
    const user = ctx.path === '/token' && ctx.body?.access_token && users.get(ctx.oidc.entities.AuthorizationCode.accountId);
    if (user?.patient && user.mode !== 'nobody') Object.assign(ctx.body, { patient: user.patient, ...(user.report && { fhirContext: [{ reference: `DiagnosticReport/${user.report}` }] }) });
    return;
  }
  if (!mode) { ctx.body = `Sign in: ${uid}`; return; }
  const { params } = await provider.interactionDetails(ctx.req, ctx.res);
  let result = { error: 'access_denied', error_description: 'the user did not agree' };
  if (mode !== 'refuse') {
    const accountId = `user-${users.size + 1}`;
    users.set(accountId, { mode, patient: ctx.query.patient, report: ctx.query.report });
    const grant = new provider.Grant({ accountId, clientId: params.client_id });
    const [given, withheld] = [params.scope.split(' ').filter((scope) => mode !== 'less' || !scope.includes('Observation')), mode === 'less' ? ['patient/Observation.rs'] : []];
    grant.addOIDCScope(given.join(' '));
    grant.addResourceScope(arg.aud, given.join(' '));
    for (const scope of withheld) { grant.rejectOIDCScope(scope); grant.rejectResourceScope(arg.aud, scope); }
    result = { login: { accountId }, consent: { grantId: await grant.save() } };
  }
  ctx.redirect(await provider.interactionResult(ctx.req, ctx.res, result, { mergeWithLastSubmission: false }));
});
provider.on('server_error', (ctx, problem) => console.error('server_error', problem));
provider.listen(Number(arg.port), '127.0.0.1', () => console.log(`authorization server ${issuer}`)).on('error', (problem) => { console.error(problem.message); process.exit(1); });
