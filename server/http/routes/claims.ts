/** Which pile a probe serves: claimed for it, and released. */
import { claimSchema, probeSchema } from '../../../shared/contracts/probes.ts';
import type { LiveHub } from '../../services/live/live-hub.ts';
import { type ClaimProbeParts, claimProbe, releaseProbe } from '../../services/probes/claim-probe.ts';
import type { KnownProbe } from '../../services/probes/probe-book.ts';
import { publishProbe } from '../../services/probes/publish-probe.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { probeParams } from './probes.ts';

interface ClaimsParts extends ClaimProbeParts {
  readonly hub: LiveHub;
}

export function registerClaims(api: Api, parts: ClaimsParts): void {
  api.post(
    '/api/probes/:site/:probe/claim',
    {
      config: { access: 'keeper', does: 'audit.did.claimed-probe-for-pile' },
      schema: { params: probeParams, body: claimSchema, response: { 200: probeSchema } },
    },
    async (request, reply) => {
      const { site, probe } = request.params;
      const known = parts.probes.get(site, probe);
      if (!known) return notFound(reply, 'probe', `${site}/${probe}`);
      const pile = parts.watch.get(request.body.pileId);
      if (!pile) return notFound(reply, 'pile', request.body.pileId);
      audit(request, { before: claimAudited(known) });
      await claimProbe(parts, known, pile, request.body);
      return publishProbe(parts, known);
    },
  );

  api.delete(
    '/api/probes/:site/:probe/claim',
    {
      config: { access: 'keeper', does: 'audit.did.released-probe' },
      schema: { params: probeParams, response: { 200: probeSchema } },
    },
    async (request, reply) => {
      const { site, probe } = request.params;
      const known = parts.probes.get(site, probe);
      if (!known) return notFound(reply, 'probe', `${site}/${probe}`);
      audit(request, { before: claimAudited(known) });
      await releaseProbe(parts, known);
      return publishProbe(parts, known);
    },
  );
}

function claimAudited({ claim }: KnownProbe) {
  return claim && { pile: claim.pileId, position: claim.position };
}
