/**
 * The same simulated days, heard by the server's watch of a pile and by a practice run: who has learnt on the one must be able to trust
 * the other.
 */
import { expect, test } from 'vitest';
import type { JudgeReading } from '../../core/profiles/pile-setup.ts';
import { AlarmRegistry } from '../../core/session/alarm-registry.ts';
import { expectedView, forecastView } from '../../core/session/series-view.ts';
import { answerBand } from '../../server/monitor/band-keeper.ts';
import { checkpointReachMs } from '../../server/pile/checkpoints.ts';
import { heardIn } from '../../server/pile/heard-by-judge.ts';
import { PileWatch } from '../../server/pile/pile-watch.ts';
import type { ProbeBook } from '../../server/services/probes/probe-book.ts';
import { pileDetail } from '../../server/services/views/pile-detail.ts';
import { pileSummary } from '../../server/services/views/pile-summary.ts';
import type { PileDetail } from '../../shared/contracts/piles.ts';
import type { BatchRecord, EntryRecord } from '../../shared/store/journal.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { createPractice, type Practice } from '../../simulator/practice/practice.ts';
import { forgotten } from '../../simulator/practice/scenarios/forgotten.ts';
import { hotWeek } from '../../simulator/practice/scenarios/hot-week.ts';
import type {
  PracticeAct,
  PracticeReading,
  PracticeScenario,
} from '../../simulator/practice/scenarios/practice-scenario.ts';
import { probeOut } from '../../simulator/practice/scenarios/probe-out.ts';
import { laidRecipe } from '../../web/src/features/practice/laid-recipe.ts';
import { type Frame, openSession } from '../../web/src/features/practice/practice-session.ts';

const reportH = 1 / 6;
/** A week of a pile, twice. */
const timeout = 120_000;

/** The pile as the server watches it: committed readings, records of the journal, bands as its worker answers them. */
class ServedPile {
  readonly practice: Practice;
  readonly #committed: PracticeReading[] = [];
  readonly #entries: EntryRecord[] = [];
  readonly #pile: { id: string; siteId: string; name: string; createdAtMs: number };
  readonly #batch: BatchRecord;
  #watch: PileWatch;
  #bandMs = Number.NEGATIVE_INFINITY;
  #lastId = 0;
  #nowMs: number;

  constructor(scenario: PracticeScenario, seed: number) {
    this.practice = createPractice(scenario, seed);
    const { startedAtMs } = this.practice;
    this.#nowMs = startedAtMs;
    this.#pile = { id: scenario.id, siteId: 'practice', name: scenario.id, createdAtMs: startedAtMs };
    this.#batch = {
      id: scenario.id,
      pileId: scenario.id,
      stage: scenario.stage,
      startedAtMs,
      endedAtMs: null,
      outcome: null,
      recipe: laidRecipe(scenario),
      limits: {},
    };
    this.#watch = this.#opened(new AlarmRegistry(scenario.id, [], () => `a${++this.#lastId}`));
  }

  #opened(registry: AlarmRegistry): PileWatch {
    const acts = this.practice.acts().map((act, i) => ({ ...act, id: String(i), pileId: this.#pile.id, note: null }));
    const committed = this.#committed;
    return new PileWatch({
      pile: this.#pile,
      batch: this.#batch,
      acts,
      heard: heardIn(this.#entries),
      registry,
      async *readBack(fromMs, toMs) {
        yield committed.filter(({ atMs }) => atMs >= fromMs && atMs < toMs);
      },
    });
  }

  async hear(readings: readonly PracticeReading[], nowMs: number): Promise<void> {
    this.#nowMs = nowMs;
    this.#committed.push(...readings);
    for (const reading of readings) this.#watch.receive(reading satisfies JudgeReading);
    if (nowMs - this.#bandMs < 3 * msPerHour) {
      await this.#watch.evaluate(nowMs, false, Number.POSITIVE_INFINITY);
      return;
    }
    // The worker's answer is there for the next look, which comes at once.
    await this.#watch.evaluate(nowMs - 1, false, Number.POSITIVE_INFINITY);
    this.#askBand(nowMs);
    await this.#watch.evaluate(nowMs, false, Number.POSITIVE_INFINITY);
  }

  #askBand(nowMs: number): void {
    const { setup } = this.#watch;
    if (!setup) throw new Error('no batch lies there');
    const air = this.#committed.flatMap(({ position, quantity, atMs, value }) =>
      position === 'air' && quantity === 'temperature' ? [{ atMs, tempC: value }] : [],
    );
    const toMs = nowMs + 2 * msPerDay;
    this.#watch.band = answerBand({ setup, air, finished: [], toMs, nowMs, forecastFromMs: nowMs - checkpointReachMs });
    this.#bandMs = nowMs;
  }

  /** As the journal takes an entry: the pile is read anew. */
  async write(what: EntryRecord['what'] | null): Promise<void> {
    if (what) {
      const entry = { id: String(this.#entries.length), pileId: this.#pile.id, atMs: this.#nowMs, by: null, what };
      this.#entries.push({ ...entry, recordedAtMs: this.#nowMs } as EntryRecord);
    }
    const before = this.#watch;
    this.#watch = this.#opened(before.registry);
    this.#watch.band = before.band;
    await this.#watch.resume(undefined, this.#nowMs);
    if (!what) this.#askBand(this.#nowMs);
    await this.#watch.evaluate(this.#nowMs, false, Number.POSITIVE_INFINITY);
  }

  async page(): Promise<PileDetail> {
    const { probes } = this.practice.scenario;
    const sources = probes.map(({ name: probe, position }) => ({
      claim: { site: 'practice', probe, toMs: null },
      position,
    }));
    const of = (_: string, probe: string) => {
      const said = this.#committed.filter((one) => one.probe === probe);
      const lastOf = (quantity: string) => said.findLast((one) => one.quantity === quantity);
      return {
        last: { temperature: lastOf('temperature'), humidity: lastOf('humidity') },
        lastAtMs: said.at(-1)?.atMs ?? null,
      };
    };
    const one = { pile: this.#pile, batch: this.#batch, sources, watch: this.#watch } as never;
    return pileDetail(
      {
        ...(one as object),
        summary: () => pileSummary(one, { of } as unknown as ProbeBook),
        judged: async () => ({ assessment: this.#watch.assessment, band: this.#watch.band }),
      } as never,
      [],
    );
  }

  forecast() {
    return forecastView(this.#watch.assessment?.forecast ?? null);
  }

  expected(fromMs: number, toMs: number) {
    return expectedView(this.#watch.band, { fromMs, toMs, points: 240 });
  }
}

/** What stands on a page, without the ids of alarms, each of which is named by what it is of. */
function read({ alarms, acts: _, ...page }: PileDetail) {
  const nameOf = (id: string | null | undefined) => {
    const one = alarms.find((alarm) => alarm.id === id);
    return one ? `${one.kind} ${one.position}` : (id ?? null);
  };
  return {
    ...page,
    alarms: alarms.map(({ id, suppressedBy, yieldsTo, ...alarm }) => ({
      ...alarm,
      name: nameOf(id),
      suppressedBy: nameOf(suppressedBy),
      yieldsTo: nameOf(yieldsTo),
    })),
  };
}

async function bothThrough(
  scenario: PracticeScenario,
  seed: number,
  compare: (frame: Frame, served: ServedPile) => Promise<void>,
  acts: readonly { readonly atReport: number; readonly act: PracticeAct }[] = [],
): Promise<void> {
  const ours = openSession(scenario, seed);
  const served = new ServedPile(scenario, seed);
  const { earlier } = served.practice;
  for (const atMs of new Set(earlier.map((one) => one.atMs))) {
    await served.hear(
      earlier.filter((one) => one.atMs === atMs),
      atMs,
    );
  }
  if (earlier.length === 0) {
    const { view, readings } = served.practice.advance(reportH);
    await served.hear(readings, view.atMs);
  }
  let frame = ours.frame();
  for (let report = 0; !frame.ended; report++) {
    for (const { act } of acts.filter((one) => one.atReport === report)) {
      frame = ours.act(act).frame;
      const { feel } = served.practice.act(act);
      await served.write(feel ? { kind: 'squeeze', feel } : null);
      await compare(frame, served);
    }
    frame = ours.advance(reportH).frame;
    const { view, readings } = served.practice.advance(reportH);
    await served.hear(readings, view.atMs);
    if (report % 18 === 0) await compare(frame, served);
  }
  await compare(frame, served);
}

for (const scenario of [hotWeek, forgotten, probeOut]) {
  test(`a practice run reads as the server’s page of the same pile, all through: ${scenario.id}`, {
    timeout,
  }, async () => {
    const raised = new Set<string>();
    let suppressed = 0;
    await bothThrough(scenario, 1, async ({ pile, series, startedAtMs, atMs }, served) => {
      const page = await served.page();
      expect(read(pile)).toEqual(read(page));
      expect(series.forecast).toEqual(served.forecast());
      const { points, ...expected } = served.expected(startedAtMs, Math.max(atMs, startedAtMs + 12 * msPerHour));
      expect(series.expected).toMatchObject(expected);
      expect(series.expected.points.map(({ at }) => at)).toEqual(points.map(({ at }) => at));
      for (const { kind, suppressedBy } of page.alarms) {
        raised.add(kind);
        if (suppressedBy !== null) suppressed += 1;
      }
    });
    expect(raised.size).toBeGreaterThan(0);
    // What a graver warning explains reads alike too.
    if (scenario === hotWeek) expect(suppressed).toBeGreaterThan(0);
  });
}

test('what a hand did and felt counts alike in practice and on the server', { timeout }, async () => {
  await bothThrough(
    hotWeek,
    1,
    async ({ pile }, served) => {
      const { judgement: ours, ...rest } = read(pile);
      const { judgement: theirs, ...page } = read(await served.page());
      expect(rest).toEqual(page);
      expect(ours?.waterToAdd).toEqual(theirs?.waterToAdd);
      expect(ours?.readiness).toEqual(theirs?.readiness);
    },
    [
      { atReport: 100, act: { kind: 'squeeze' } },
      { atReport: 190, act: { kind: 'spread', depthM: 0.2 } },
    ],
  );
});
