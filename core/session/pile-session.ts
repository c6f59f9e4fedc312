/**
 * One pile as it is judged, for whoever has its readings: the server, and a page with a pile of its own. It is fed in
 * the order of time, keeps nothing outside itself, and reads no clock.
 */
import { guessedAirC } from '../estimate/air.ts';
import { airAtHour } from '../estimate/hours.ts';
import { leastSilentMs } from '../estimate/track.ts';
import type { ExpectedBand } from '../expect/band.ts';
import { weatherDeparts } from '../expect/weather-departs.ts';
import type { JudgeReading, PileSetup } from '../profiles/pile-setup.ts';
import type { Finding } from '../warnings/finding.ts';
import type { AlarmChange, AlarmHandling, AlarmRegistry } from './alarm-registry.ts';
import type { Assessment } from './assessment.ts';
import { assess, findingsAt, type JudgeState, startJudge, stepJudge } from './judge.ts';
import { type PositionRhythm, rhythmsOf } from './rhythms.ts';

export class PileSession {
  readonly alarms: AlarmRegistry;
  /** What such a pile should do; null until it is worked out. */
  band: ExpectedBand | null = null;
  #setup: PileSetup;
  #state: JudgeState;
  #throughMs: number;

  constructor(setup: PileSetup, alarms: AlarmRegistry) {
    this.#setup = setup;
    this.alarms = alarms;
    this.#state = startJudge(setup);
    this.#throughMs = setup.startedAtMs;
  }

  get setup(): PileSetup {
    return this.#setup;
  }

  /** The newest reading time that was stepped; the start before any. */
  get throughMs(): number {
    return this.#throughMs;
  }

  /** What the judge remembers, to be kept and gone on from. */
  get state(): JudgeState {
    return this.#state;
  }

  /** Something was done or noted: it counts from its own time on. */
  learn(setup: PileSetup): void {
    this.#setup = setup;
  }

  /** Takes in one reading. Probes do not report at the same instant: one that is a little late counts as of now. Hot. */
  step(reading: JudgeReading): void {
    if (reading.standby !== undefined) {
      // What stands by sets no clock.
      stepJudge(this.#state, this.#setup, this.band, reading);
      return;
    }
    const inOrder = reading.atMs >= this.#throughMs ? reading : { ...reading, atMs: this.#throughMs };
    stepJudge(this.#state, this.#setup, this.band, inOrder);
    this.#throughMs = inOrder.atMs;
  }

  /**
   * Steps the alarms by what is found now.
   * @param listeningForMs How long readings have been coming in: what a broker kept for us is at first still on its way.
   */
  evaluate(nowMs: number, listeningForMs = Number.POSITIVE_INFINITY): AlarmChange {
    const findings = findingsAt(this.#state, this.#setup, this.band, nowMs);
    return this.alarms.evaluate(heardLongEnough(findings, listeningForMs), nowMs);
  }

  /** @returns undefined when no such alarm is open. */
  handle(alarmId: string, handling: AlarmHandling, nowMs: number): AlarmChange | undefined {
    return this.alarms.handle(alarmId, handling, nowMs);
  }

  /** What there is to say at `nowMs`; changes nothing. */
  assessment(nowMs: number): Assessment {
    return assess(this.#state, this.#setup, this.band, nowMs);
  }

  /** When each position was last heard, and how often it speaks. */
  rhythms(): PositionRhythm[] {
    return rhythmsOf(this.#state, this.#setup);
  }

  /** Whether the air of the last hour was other than the expected band took it to be. */
  get weatherDeparts(): boolean {
    const { hours } = this.#state;
    const hour = hours.done - 1;
    const meanC = airAtHour(hours, hour);
    return this.band !== null && meanC !== null && weatherDeparts(this.band, meanC, hour);
  }

  /** What an expected band takes the air as where nobody measures it [°C]. */
  get guessedAirC(): number | undefined {
    return guessedAirC(this.#state);
  }

  /** Forgets all readings; alarms stay as they are. */
  startAnew(): void {
    this.#state = startJudge(this.#setup);
    this.#throughMs = this.#setup.startedAtMs;
  }

  /** Goes on from where it was once left; alarms stay as they are. */
  goOnFrom(state: JudgeState, throughMs: number): void {
    this.#state = state;
    this.#throughMs = throughMs;
  }
}

/** Until somebody has listened a while, silence proves nothing. */
function heardLongEnough(findings: readonly Finding[], listeningForMs: number): readonly Finding[] {
  if (listeningForMs >= leastSilentMs) return findings;
  return findings.map((finding) =>
    finding.kind === 'probe-silent' && finding.evidence === 'present' ? { ...finding, evidence: 'missing' } : finding,
  );
}
