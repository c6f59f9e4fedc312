/** Alarms with their steps, and what a person may do with them. */
import { z } from 'zod';
import {
  alarmActSchema,
  alarmDetailSchema,
  alarmsAnswerSchema,
  shelveSchema,
} from '../../../shared/contracts/alarms.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import type { AuditedCode } from '../../services/people/audited-code.ts';
import { signedBy } from '../../services/people/signed-by.ts';
import { alarmDetail } from '../../services/views/alarm-view.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';
import { pileParams } from './piles.ts';

const alarmParams = z.object({ id: z.string().min(1).max(64) });
const mostShown = 200;

interface AlarmsParts {
  readonly journal: Journal;
  readonly watch: PilePort;
}

export function registerAlarms(api: Api, { journal, watch }: AlarmsParts): void {
  const show = async (id: string) => {
    const alarm = await journal.alarms.get(id);
    return alarm && alarmDetail(alarm, await journal.alarms.steps(id), await journal.alarms.open(alarm.pileId));
  };

  api.get(
    '/api/piles/:id/alarms',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: alarmsAnswerSchema } } },
    async (request, reply) => {
      const { id } = request.params;
      if (!watch.get(id)) return notFound(reply, 'pile', id);
      const [alarms, open] = await Promise.all([journal.alarms.forPile(id, mostShown), journal.alarms.open(id)]);
      return {
        alarms: await Promise.all(
          alarms.map(async (alarm) => alarmDetail(alarm, await journal.alarms.steps(alarm.id), open)),
        ),
      };
    },
  );

  api.get(
    '/api/alarms/:id',
    { config: { access: 'viewer' }, schema: { params: alarmParams, response: { 200: alarmDetailSchema } } },
    async (request, reply) => (await show(request.params.id)) ?? notFound(reply, 'alarm', request.params.id),
  );

  const handle = <Body extends z.ZodType<{ by?: string | undefined } | null | undefined>>(
    path: string,
    does: AuditedCode,
    body: Body,
    act: (id: string, input: z.output<Body>, by: { by?: string }) => Promise<boolean>,
  ) =>
    api.post(
      path,
      {
        config: { access: 'keeper', does },
        schema: { params: alarmParams, body, response: { 200: alarmDetailSchema } },
      },
      async (request, reply) => {
        const { id } = request.params;
        const input = request.body as z.output<Body>;
        const by = signedBy(request, input?.by);
        if (!(await act(id, input, by === undefined ? {} : { by }))) return notFound(reply, 'openAlarm', id);
        return (await show(id)) ?? notFound(reply, 'alarm', id);
      },
    );

  const whoSchema = alarmActSchema.nullish();
  handle('/api/alarms/:id/acknowledge', 'audit.did.acknowledged-warning', whoSchema, (id, input, by) =>
    watch.handleAlarm(id, { kind: 'acknowledge', ...input, ...by }),
  );
  handle('/api/alarms/:id/shelve', 'audit.did.shelved-warning', shelveSchema, (id, input, by) =>
    watch.handleAlarm(id, { kind: 'shelve', ...input, ...by }),
  );
  handle('/api/alarms/:id/unshelve', 'audit.did.unshelved-warning', whoSchema, (id, input, by) =>
    watch.handleAlarm(id, { kind: 'unshelve', ...input, ...by }),
  );
}
