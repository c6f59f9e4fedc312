/**
 * The session of a practice pile: judged as a real one, by what its probes say and what is written down. The hidden truth
 * stays with the model.
 */

import type { ExpectedBand } from '../../../../core/expect/band.ts';
import { expectedBand } from '../../../../core/expect/expected-band.ts';
import type { Noted } from '../../../../core/profiles/noted.ts';
import type { PileSetup } from '../../../../core/profiles/pile-setup.ts';
import { type AlarmView, alarmSummaries } from '../../../../core/say/alarm-view.ts';
import { AlarmRegistry } from '../../../../core/session/alarm-registry.ts';
import type { Assessment } from '../../../../core/session/assessment.ts';
import { PileSession } from '../../../../core/session/pile-session.ts';
import type { Act } from '../../../../shared/contracts/domain/batch.ts';
import type { Worded } from '../../../../shared/messages/worded-answers.ts';
import type { SqueezeFeel } from '../../../../shared/squeeze.ts';
import { msPerDay, msPerHour } from '../../../../shared/units.ts';
import type { PracticeReading } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { worded } from './worded.ts';

/** As often as the server: the band every three hours and after an act, two days ahead. */
const bandEveryMs = 3 * msPerHour;
const bandAheadMs = 2 * msPerDay;

export type PracticeAlarm = Worded<AlarmView>;

export interface PracticeJudge {
  /** @returns The alarms that ask for a person now. */
  hear(readings: readonly PracticeReading[], nowMs: number): PracticeAlarm[];
  /** Something was written down: what is expected changes from here on. */
  acted(acts: readonly Act[], nowMs: number): void;
  /** Somebody looked and smelled; what they found stands in words of their own. */
  judged(atMs: number): void;
  /** A handful was squeezed. */
  squeezed(feel: SqueezeFeel, atMs: number): void;
  acknowledge(alarmId: string, nowMs: number): void;
  assessment(nowMs: number): Assessment;
  alarms(): PracticeAlarm[];
  band(): ExpectedBand | null;
}

export function createJudge(start: Omit<PileSetup, 'acts'>): PracticeJudge {
  let lastAlarm = 0;
  const session = new PileSession(
    { ...start, acts: [] },
    new AlarmRegistry('practice', [], () => `practice-${++lastAlarm}`),
  );
  const air: { atMs: number; tempC: number }[] = [];
  let bandMs = Number.NEGATIVE_INFINITY;

  const renewBand = (nowMs: number) => {
    session.band = expectedBand(session.setup, air, nowMs + bandAheadMs);
    bandMs = nowMs;
  };

  const note = (one: Noted) => {
    session.learn({ ...session.setup, noted: [...(session.setup.noted ?? []), one] });
    session.evaluate(one.atMs);
  };

  const alarms = () => worded(alarmSummaries(session.alarms.open()));

  return {
    hear(readings, nowMs) {
      for (const { position, quantity, value, atMs } of readings) {
        if (position === 'air' && quantity === 'temperature') air.push({ atMs, tempC: value });
        session.step({ position, quantity, value, atMs });
      }
      if (nowMs - bandMs >= bandEveryMs) renewBand(nowMs);
      const asking = session
        .evaluate(nowMs)
        .steps.filter(({ from, to }) => to === 'unacknowledged' && from !== 'unacknowledged')
        .map(({ alarmId }) => alarmId);
      return asking.length === 0 ? [] : alarms().filter(({ id }) => asking.includes(id));
    },
    acted(acts, nowMs) {
      session.learn({ ...session.setup, acts });
      renewBand(nowMs);
    },
    judged: (atMs) =>
      note({ atMs, by: null, what: { kind: 'readiness', smell: 'doubtful', look: 'doubtful', ready: false } }),
    squeezed: (feel, atMs) => note({ atMs, by: null, what: { kind: 'squeeze', feel } }),
    acknowledge: (alarmId, nowMs) => void session.handle(alarmId, { kind: 'acknowledge' }, nowMs),
    assessment: (nowMs) => session.assessment(nowMs),
    alarms,
    band: () => session.band,
  };
}
