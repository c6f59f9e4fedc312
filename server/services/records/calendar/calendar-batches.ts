import { isStanding } from '../../../../core/alarms/standing.ts';
import { adviceOf } from '../../../../core/say/advice.ts';
import { advisedAlarm } from '../../../../core/say/alarm-view.ts';
import type { AlarmRecord, Journal } from '../../../../shared/store/journal.ts';
import { batchName, readFamily } from '../../lineage/family.ts';
import { type CalendarBatch, callingOff } from './date-calendar.ts';

/** The batches that lie now, of one site or one pile where that is asked for. */
export async function calendarBatches(
  journal: Journal,
  { site, pile }: { readonly site?: string | undefined; readonly pile?: string | undefined },
): Promise<CalendarBatch[]> {
  const family = await readFamily(journal);
  const sites = new Map((await journal.sites.list()).map(({ id, name }) => [id, name]));
  const warnings = (await journal.alarms.open()).filter(({ machine }) => isStanding(machine));
  return [...family.batches.values()].flatMap((batch) => {
    const place = family.piles.get(batch.pileId);
    if (!place || batch.endedAtMs !== null) return [];
    if ((site !== undefined && place.siteId !== site) || (pile !== undefined && place.id !== pile)) return [];
    const siteName = sites.get(place.siteId) ?? place.siteId;
    const calledOff = calledOffBy(warnings.filter(({ pileId }) => pileId === place.id));
    return [{ batch, name: batchName(family, batch), pileName: place.name, siteName, calledOff }];
  });
}

/** By the gravest that does. @param warnings Those of one pile that stand. */
export function calledOffBy(warnings: readonly AlarmRecord[]): CalendarBatch['calledOff'] {
  for (const by of callingOff) {
    const warning = warnings.find(({ kind }) => kind === by);
    if (warning) return { by, todo: adviceOf(advisedAlarm(warning), warnings.map(advisedAlarm)).todo };
  }
  return undefined;
}
