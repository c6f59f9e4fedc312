/**
 * The judge of real piles over what the probes of a practice pile say. It never sees anything but readings and acts:
 * the hidden truth stays with the model.
 */

import type { ExpectedBand } from '../../../../core/expect/band.ts';
import { expectedBand } from '../../../../core/expect/expected-band.ts';
import type { Noted } from '../../../../core/profiles/noted.ts';
import type { PileSetup } from '../../../../core/profiles/pile-setup.ts';
import { type Assessment, assess, startJudge, stepJudge } from '../../../../core/session/judge.ts';
import type { Act } from '../../../../shared/contracts/domain/batch.ts';
import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import type { squeezeFeels } from '../../../../shared/entry.ts';
import { msPerDay, msPerHour } from '../../../../shared/units.ts';
import type { PracticeReading } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { createAlarms } from './practice-alarms.ts';

/** As often as the server: the band every three hours and after an act, two days ahead. */
const bandEveryMs = 3 * msPerHour;
const bandAheadMs = 2 * msPerDay;

export type Feel = (typeof squeezeFeels)[number];

export interface PracticeJudge {
  /** @returns The alarms that ask for a person now. */
  hear(readings: readonly PracticeReading[], nowMs: number): AlarmSummary[];
  /** Something was written down: what is expected changes from here on. */
  acted(acts: readonly Act[], nowMs: number): void;
  /** Somebody looked and smelled; what they found stands in words of their own. */
  judged(atMs: number): void;
  /** A handful was squeezed. */
  squeezed(feel: Feel, atMs: number): void;
  acknowledge(alarmId: string, nowMs: number): void;
  assessment(nowMs: number): Assessment;
  alarms(): AlarmSummary[];
  band(): ExpectedBand | null;
}

export function createJudge(start: Omit<PileSetup, 'acts'>): PracticeJudge {
  let setup: PileSetup = { ...start, acts: [] };
  const state = startJudge(setup);
  const alarms = createAlarms();
  const air: { atMs: number; tempC: number }[] = [];
  let band: ExpectedBand | null = null;
  let bandMs = Number.NEGATIVE_INFINITY;

  const renewBand = (nowMs: number) => {
    band = expectedBand(setup, air, nowMs + bandAheadMs);
    bandMs = nowMs;
  };

  const note = (one: Noted) => {
    setup = { ...setup, noted: [...(setup.noted ?? []), one] };
    alarms.look(assess(state, setup, band, one.atMs).findings, one.atMs);
  };

  return {
    hear(readings, nowMs) {
      for (const { position, quantity, value, atMs } of readings) {
        if (position === 'air' && quantity === 'temperature') air.push({ atMs, tempC: value });
        stepJudge(state, setup, band, { position, quantity, value, atMs });
      }
      if (nowMs - bandMs >= bandEveryMs) renewBand(nowMs);
      return alarms.look(assess(state, setup, band, nowMs).findings, nowMs);
    },
    acted(acts, nowMs) {
      setup = { ...setup, acts };
      renewBand(nowMs);
    },
    judged: (atMs) =>
      note({ atMs, by: null, what: { kind: 'readiness', smell: 'doubtful', look: 'doubtful', ready: false } }),
    squeezed: (feel, atMs) => note({ atMs, by: null, what: { kind: 'squeeze', feel } }),
    acknowledge: (alarmId, nowMs) => alarms.acknowledge(alarmId, nowMs),
    assessment: (nowMs) => assess(state, setup, band, nowMs),
    alarms: () => alarms.open(),
    band: () => band,
  };
}
