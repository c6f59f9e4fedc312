/** Tomorrow's air, as programs foretell it for a site. */
import { z } from 'zod';
import { airAheadKeptSchema, newAirAheadSchema } from '../../../shared/contracts/air-ahead.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { AirAheadKeeper } from '../../services/air-ahead/keep-air-ahead.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';

interface AirAheadParts {
  readonly journal: Pick<Journal, 'sites'>;
  readonly airAhead: AirAheadKeeper;
}

export function registerAirAhead(api: Api, { journal, airAhead }: AirAheadParts): void {
  api.post(
    '/api/sites/:id/air-ahead',
    {
      config: { access: 'keeper', does: false },
      schema: {
        params: z.object({ id: z.string().min(1).max(64) }),
        body: newAirAheadSchema,
        response: { 200: airAheadKeptSchema },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await journal.sites.list()).some((site) => site.id === id)) return notFound(reply, 'site', id);
      return airAhead.post(id, request.body);
    },
  );
}
