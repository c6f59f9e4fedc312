/** A batch to judge, readings to feed it, and a host that keeps its alarms. */
import { type AlarmMachine, startAlarm, stepAlarm } from '../../core/alarms/alarm.ts';
import { delaysOf } from '../../core/alarms/policies.ts';
import { isStanding } from '../../core/alarms/standing.ts';
import type { ExpectedBand } from '../../core/expect/band.ts';
import type { PileNow } from '../../core/forecast/pile-now.ts';
import type { PileSetup } from '../../core/profiles/pile-setup.ts';
import { sayCondition } from '../../core/say/condition.ts';
import type { Saying, StandingAlarm, Tone } from '../../core/say/saying.ts';
import type { Assessment } from '../../core/session/assessment.ts';
import { assess, startJudge, stepJudge } from '../../core/session/judge.ts';
import { type Finding, gradeOf } from '../../core/warnings/finding.ts';
import { metric } from '../../shared/messages/format.ts';
import type { Message } from '../../shared/messages/message.ts';
import { plainEnglish, renderEnglish } from '../../shared/messages/render.ts';
import { plainSpaces } from '../../shared/messages/renderer.ts';
import type { Position, Stage } from '../../shared/names.ts';
import type { Quantity } from '../../shared/quantity.ts';
import { stageLimits } from '../../shared/stage.ts';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import type { Phase, WarningKind } from '../../shared/warning.ts';

export const startMs = Date.UTC(2031, 3, 5, 8);

export function setupOf(stage: Stage = 'bran', change: Partial<PileSetup> = {}): PileSetup {
  return {
    stage,
    startedAtMs: startMs,
    limits: stageLimits[stage],
    recipe:
      stage === 'bran'
        ? { material: 'wheat-bran', depthM: 0.3, massKg: 100, moistureFrac: 0.6, cover: 'breathable' }
        : { material: 'soil-mix', depthM: 0.2, massKg: 100, moistureFrac: 0.45, cover: 'breathable' },
    acts: [],
    ...change,
  };
}

/** A pile whose core was so at the end of each hour. */
export function pileAt(hour: number, endC: (hour: number) => number | null, change: Partial<PileNow> = {}): PileNow {
  return {
    seen: (at) => (at < 0 || at > hour ? null : endC(at)),
    hour,
    atMs: 0,
    nowC: endC(hour) ?? 0,
    airC: 20,
    depthM: 0.3,
    shallow: false,
    soil: false,
    quietH: Number.POSITIVE_INFINITY,
    limitC: 50,
    workPerDay: 0,
    workDone: 0,
    ...change,
  };
}

/** What a finding says, as the reader of plain English has it. */
export function inWords({ seen, todo, caution, why }: Pick<Finding, 'seen' | 'todo' | 'caution' | 'why'>) {
  return {
    seen: plainEnglish(seen),
    todo: plainEnglish(todo),
    caution: caution && plainEnglish(caution),
    why: plainEnglish(why),
  };
}

/** What a pile says, in English. */
export interface Said {
  readonly condition: string;
  readonly next: string;
  readonly tone: Tone;
}

export function inSentences({ condition, next, tone }: Saying, unit: 'C' | 'F' = 'C'): Said {
  const reader = { language: 'en', timeZone: 'UTC', nowMs: startMs, units: { ...metric, temperature: unit } };
  const words = (said: Message) => plainSpaces(renderEnglish(said, reader));
  return { condition: words(condition), next: words(next), tone };
}

export interface Event {
  readonly hour: number;
  readonly kind: WarningKind;
  readonly position: Position | null;
  readonly arrow: string;
}

/** Plays a pile through the judge as the server would: every reading stepped, assessed each ten minutes. */
export class Played {
  readonly events: Event[] = [];
  /** Each phase it has been in, in turn. */
  readonly phases: Phase[] = [];
  readonly state;
  private readonly machines = new Map<
    string,
    { kind: WarningKind; position: Position | null; machine: AlarmMachine }
  >();
  private evaluatedAtMs: number;
  last: Assessment | null = null;
  readonly setup: PileSetup;
  readonly band: ExpectedBand | null;

  constructor(setup: PileSetup, band: ExpectedBand | null = null) {
    this.setup = setup;
    this.band = band;
    this.state = startJudge(setup);
    this.evaluatedAtMs = setup.startedAtMs;
  }

  feed(position: Position, value: number, atMs: number, quantity: Quantity = 'temperature'): void {
    stepJudge(this.state, this.setup, this.band, { position, quantity, value, atMs });
  }

  /** When it will next be looked at. */
  get lookedMs(): number {
    return this.evaluatedAtMs;
  }

  lookUntil(untilMs: number): void {
    for (; this.evaluatedAtMs <= untilMs; this.evaluatedAtMs += 10 * msPerMinute) this.evaluate(this.evaluatedAtMs);
  }

  evaluate(nowMs: number): void {
    this.last = assess(this.state, this.setup, this.band, nowMs);
    if (this.phases.at(-1) !== this.state.phase.now) this.phases.push(this.state.phase.now);
    for (const finding of this.last.findings) {
      const id = `${finding.kind}/${finding.position}`;
      const kept = this.machines.get(id)?.machine ?? startAlarm(nowMs);
      const { next, arrow } = stepAlarm(
        kept,
        finding.explainedBy === null ? finding.evidence : 'missing',
        nowMs,
        delaysOf(finding),
        gradeOf(finding),
      );
      this.machines.set(id, { kind: finding.kind, position: finding.position, machine: next });
      if (next.state !== kept.state) {
        const hour = (nowMs - this.setup.startedAtMs) / msPerHour;
        this.events.push({ hour, kind: finding.kind, position: finding.position, arrow });
      }
    }
  }

  get alarms(): StandingAlarm[] {
    return [...this.machines.values()].map(({ kind, position, machine }) => ({
      kind,
      position,
      state: machine.state,
      stands: isStanding(machine),
    }));
  }

  stateOf(kind: WarningKind, position: Position | null = null): string {
    return this.machines.get(`${kind}/${position}`)?.machine.state ?? 'never looked at';
  }

  say(unit: 'C' | 'F' = 'C'): Said {
    if (this.last === null) throw new Error('Cannot say anything as the pile was never looked at');
    return inSentences(sayCondition(this.last, this.alarms), unit);
  }

  raised(): string[] {
    return this.events
      .filter(({ arrow }) => arrow.startsWith('raised'))
      .map(({ kind, position }) => `${kind}/${position}`);
  }

  finding(kind: WarningKind, position: Position | null = null): Finding {
    const found = this.last?.findings.find((one) => one.kind === kind && one.position === position);
    if (found === undefined) throw new Error(`No finding of kind ${kind}`);
    return found;
  }
}

/** Plays a core curve (and air) given by the hour, measured every `everyMin` minutes, until `hours`. */
export function play(
  setup: PileSetup,
  hours: number,
  coreC: (hour: number) => number | null,
  airC: ((hour: number) => number) | null = () => 20,
  options: { everyMin?: number; band?: ExpectedBand | null } = {},
): Played {
  const played = new Played(setup, options.band ?? null);
  const everyMs = (options.everyMin ?? 10) * msPerMinute;
  for (let atMs = setup.startedAtMs; atMs <= setup.startedAtMs + hours * msPerHour; atMs += everyMs) {
    const hour = (atMs - setup.startedAtMs) / msPerHour;
    const core = coreC(hour);
    // The last digit of a real chip never stands still.
    const wobbleK = 0.05 * Math.sin(atMs / 7777);
    if (airC !== null) played.feed('air', airC(hour) + wobbleK, atMs);
    if (core !== null) played.feed('core', core + wobbleK, atMs);
    played.lookUntil(atMs);
  }
  return played;
}

/** Straight lines between points [hour, °C]. */
export function through(...points: [number, number][]): (hour: number) => number {
  return (hour) => {
    const right = points.findIndex(([at]) => at >= hour);
    const to = points[right] ?? points.at(-1);
    const from = points[right - 1];
    if (to === undefined) return 0;
    if (from === undefined || right <= 0) return to[1];
    return from[1] + ((to[1] - from[1]) * (hour - from[0])) / (to[0] - from[0]);
  };
}
