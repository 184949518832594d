// Whether a client assertion is what SMART App Launch 2.2 asks for, judged by npm jose.
// Usage: node check-assertion.mjs < {"assertion", "keys": JWK Set, "algorithm", "client", "audience"}
// Prints the claims, or why not. Exit codes: 0 good, 1 refused, 2 usage.
import { createLocalJWKSet, jwtVerify } from 'jose';

let asked;
try { asked = JSON.parse(await new Response(process.stdin).text()); } catch (problem) { console.error(problem.message); process.exit(2); }
try {
  const { payload, protectedHeader } = await jwtVerify(asked.assertion, createLocalJWKSet(asked.keys), {
    algorithms: [asked.algorithm], issuer: asked.client, subject: asked.client, audience: asked.audience, typ: 'JWT',
    requiredClaims: ['exp', 'jti'], maxTokenAge: '5m',
  });
  if (payload.exp > Date.now() / 1000 + 300) throw new Error('exp is more than five minutes ahead');
  console.log(JSON.stringify({ protectedHeader, payload }));
} catch (problem) {
  console.log(`${problem.code ?? ''} ${problem.message}`);
  process.exit(1);
}
