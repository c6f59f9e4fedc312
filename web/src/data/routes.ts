/** Every route that several pages use, one function each, with what it answers. */
import { z } from 'zod';
import { alarmDetailSchema } from '../../../shared/contracts/alarms.ts';
import { healthSchema } from '../../../shared/contracts/health.ts';
import type { NewEntry } from '../../../shared/contracts/journal.ts';
import {
  type finishBatchSchema,
  type NewPile,
  type newActSchema,
  type newBatchSchema,
  type pileChangeSchema,
  pileDetailSchema,
  pilesAnswerSchema,
} from '../../../shared/contracts/piles.ts';
import { type claimSchema, type ProbesQuestion, probesAnswerSchema } from '../../../shared/contracts/probes.ts';
import { type BandSource, seriesAnswerSchema } from '../../../shared/contracts/series.ts';
import { type newSiteSchema, sitesAnswerSchema } from '../../../shared/contracts/sites.ts';
import type { Position } from '../../../shared/names.ts';
import { ask } from './client.ts';

/** An answer whose content the page does not use: it fetches what changed. */
const anything = z.unknown();
/** What the page needs to know of a thing just made. */
const made = z.object({ id: z.string() });

const piece = encodeURIComponent;
export const pilePath = (id: string) => `/api/piles/${piece(id)}`;
const alarmPath = (id: string) => `/api/alarms/${piece(id)}`;
const probePath = (site: string, probe: string) => `/api/probes/${piece(site)}/${piece(probe)}`;

type Input<Schema extends z.ZodType> = z.input<Schema>;

// The live connection shows the last of these itself, with the time they were said at.
const fresh = { recall: false } as const;
/** It costs the server nothing: who has not answered it by then is out of reach, and what was last said is shown. */
export const getHealth = () => ask(healthSchema, '/api/health', { ...fresh, patienceMs: 8_000 });
export const getPiles = () => ask(pilesAnswerSchema, '/api/piles', fresh);
export const getPile = (id: string) => ask(pileDetailSchema, pilePath(id));
/** What every page knows of probes: how many there are, and a few. */
export const fewProbesPath = '/api/probes?limit=50';
export const getProbes = () => ask(probesAnswerSchema, fewProbesPath, fresh);
export const forgetProbe = (site: string, probe: string) => ask(anything, probePath(site, probe), { method: 'DELETE' });
export const forgetProbes = (find: string) => ask(anything, '/api/probes/forget', { method: 'POST', body: { find } });
export const findProbes = (question: ProbesQuestion) => {
  const asked = Object.entries(question).filter(([, value]) => value !== undefined && value !== '');
  return ask(
    probesAnswerSchema,
    `/api/probes?${new URLSearchParams(asked.map(([name, value]) => [name, String(value)]))}`,
  );
};
export const takeDifference = (pileId: string, position: Position, at: string) =>
  ask(anything, `${pilePath(pileId)}/probe-offset`, { method: 'POST', body: { position, at } });
export const getSites = () => ask(sitesAnswerSchema, '/api/sites', fresh);

export const makeSite = (site: Input<typeof newSiteSchema>) => ask(made, '/api/sites', { method: 'POST', body: site });
export const makePile = (pile: NewPile) => ask(made, '/api/piles', { method: 'POST', body: pile });
export const changePile = (id: string, change: Input<typeof pileChangeSchema>) =>
  ask(anything, pilePath(id), { method: 'PATCH', body: change });
export const removePile = (id: string) => ask(anything, pilePath(id), { method: 'DELETE' });
export const finishBatch = (id: string, end: Input<typeof finishBatchSchema>) =>
  ask(anything, `${pilePath(id)}/finish`, { method: 'POST', body: end });
export const startBatch = (id: string, batch: Input<typeof newBatchSchema>) =>
  ask(anything, `${pilePath(id)}/batches`, { method: 'POST', body: batch });
export const addAct = (id: string, act: Input<typeof newActSchema>) =>
  ask(anything, `${pilePath(id)}/acts`, { method: 'POST', body: act });

export const addEntry = (id: string, entry: NewEntry) =>
  ask(anything, `${pilePath(id)}/entries`, { method: 'POST', body: entry });

export const getSeries = (
  id: string,
  from: string,
  to: string,
  points: number,
  expected: BandSource = 'both',
  signal?: AbortSignal,
) =>
  ask(
    seriesAnswerSchema,
    `${pilePath(id)}/series?${new URLSearchParams({ from, to, points: String(points), expected })}`,
    signal ? { signal } : {},
  );

export const getAlarm = (id: string) => ask(alarmDetailSchema, alarmPath(id));
export const acknowledge = (id: string, by: string | undefined) =>
  ask(anything, `${alarmPath(id)}/acknowledge`, { method: 'POST', body: by ? { by } : {} });
export const shelve = (id: string, minutes: number, by: string | undefined) =>
  ask(anything, `${alarmPath(id)}/shelve`, { method: 'POST', body: by ? { minutes, by } : { minutes } });
export const unshelve = (id: string, by: string | undefined) =>
  ask(anything, `${alarmPath(id)}/unshelve`, { method: 'POST', body: by ? { by } : {} });

export const claimProbe = (site: string, probe: string, claim: Input<typeof claimSchema>) =>
  ask(anything, `${probePath(site, probe)}/claim`, { method: 'POST', body: claim });
export const releaseProbe = (site: string, probe: string) =>
  ask(anything, `${probePath(site, probe)}/claim`, { method: 'DELETE' });
export const calibrateProbe = (site: string, probe: string, temperatureOffsetC: number) =>
  ask(anything, `${probePath(site, probe)}/calibration`, { method: 'PUT', body: { temperatureOffsetC } });
