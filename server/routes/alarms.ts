/**
 * server/routes/alarms.ts: alarms with their steps, and what a person may do with them.
 */
import { z } from 'zod';
import { alarmActSchema, alarmDetailSchema, alarmsAnswerSchema, shelveSchema } from '../../shared/api/alarms.ts';
import type { House } from '../house.ts';
import type { Api } from '../http/api.ts';
import { notFound } from '../http/problem.ts';
import { alarmDetail } from '../views/alarm-view.ts';
import { pileParams } from './piles.ts';

const alarmParams = z.object({ id: z.string().min(1).max(64) });
const mostShown = 200;

export function registerAlarms(api: Api, house: House): void {
  const { journal, watch } = house;

  const show = async (id: string) => {
    const alarm = await journal.alarms.get(id);
    return alarm && alarmDetail(alarm, await journal.alarms.steps(id));
  };

  api.get(
    '/api/piles/:id/alarms',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: alarmsAnswerSchema } } },
    async (request, reply) => {
      const { id } = request.params;
      if (!watch.get(id)) return notFound(reply, 'pile', id);
      const alarms = await journal.alarms.forPile(id, mostShown);
      return {
        alarms: await Promise.all(
          alarms.map(async (alarm) => alarmDetail(alarm, await journal.alarms.steps(alarm.id))),
        ),
      };
    },
  );

  api.get(
    '/api/alarms/:id',
    { config: { access: 'viewer' }, schema: { params: alarmParams, response: { 200: alarmDetailSchema } } },
    async (request, reply) => (await show(request.params.id)) ?? notFound(reply, 'alarm', request.params.id),
  );

  const handle = (path: string, body: z.ZodType, act: (id: string, input: unknown) => Promise<boolean>) =>
    api.post(
      path,
      { config: { access: 'keeper' }, schema: { params: alarmParams, body, response: { 200: alarmDetailSchema } } },
      async (request, reply) => {
        const { id } = request.params;
        if (!(await act(id, request.body))) return notFound(reply, 'open alarm', id);
        return (await show(id)) ?? notFound(reply, 'alarm', id);
      },
    );

  const whoSchema = alarmActSchema.nullish();
  handle('/api/alarms/:id/acknowledge', whoSchema, (id, input) =>
    watch.handleAlarm(id, { kind: 'acknowledge', ...whoSchema.parse(input) }),
  );
  handle('/api/alarms/:id/shelve', shelveSchema, (id, input) =>
    watch.handleAlarm(id, { kind: 'shelve', ...shelveSchema.parse(input) }),
  );
  handle('/api/alarms/:id/unshelve', whoSchema, (id, input) =>
    watch.handleAlarm(id, { kind: 'unshelve', ...whoSchema.parse(input) }),
  );
}
