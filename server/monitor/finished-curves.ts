/**
 * The core curves of the grower's own finished batches, for the expected band. It never takes a batch that was cut
 * short within a day, was given up, judged poor or lost, or that a person found bad: it is not what is wanted.
 */
import type { FastifyBaseLogger } from 'fastify';
import type { FinishedBatch } from '../../core/expect/finished.ts';
import type { Stage } from '../../shared/names.ts';
import type { BatchRecord, ClaimRecord, Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { pileSources } from '../pile/pile-sources.ts';
import { newestVerdicts } from '../services/lineage/newest-verdicts.ts';

/** The newest this many are enough for quantiles and keep the sum quick. */
const mostBatches = 40;
/** Real time for which an answer holds: thousands of piles may ask within a minute. */
const holdsForMs = 600_000;

export class FinishedCurves {
  readonly #journal: Journal;
  readonly #readings: ReadingsStore;
  readonly #log: Pick<FastifyBaseLogger, 'warn'>;
  readonly #curves = new Map<string, FinishedBatch | null>();
  readonly #answers = new Map<Stage, { readonly atMs: number; readonly answer: Promise<FinishedBatch[]> }>();

  constructor(journal: Journal, readings: ReadingsStore, log: Pick<FastifyBaseLogger, 'warn'>) {
    this.#journal = journal;
    this.#readings = readings;
    this.#log = log;
  }

  /** What was written about batches has changed: the next question is answered from the journal. */
  forget(): void {
    this.#answers.clear();
  }

  ofStage(stage: Stage): Promise<FinishedBatch[]> {
    const known = this.#answers.get(stage);
    if (known && Date.now() - known.atMs < holdsForMs) return known.answer;
    const answer = this.#gather(stage);
    this.#answers.set(stage, { atMs: Date.now(), answer });
    answer.catch(() => this.#answers.delete(stage));
    return answer;
  }

  async #gather(stage: Stage): Promise<FinishedBatch[]> {
    const finished = (await this.#journal.batches.list())
      .filter((batch) => batch.stage === stage && (batch.endedAtMs ?? 0) - batch.startedAtMs >= msPerDay)
      .sort((a, b) => b.startedAtMs - a.startedAtMs);
    const abandoned = new Set(
      (await this.#journal.lineage.stories()).flatMap(({ ending, batchId }) => (ending === 'abandoned' ? batchId : [])),
    );
    const verdicts = await newestVerdicts(this.#journal);
    const claims = finished.length === 0 ? [] : await this.#journal.claims.list();
    const curves: FinishedBatch[] = [];
    for (const batch of finished) {
      if (curves.length === mostBatches) break;
      const verdict = verdicts.get(batch.id)?.what.verdict;
      if (abandoned.has(batch.id) || verdict === 'poor' || verdict === 'lost') continue;
      const curve = await this.#curveOrNone(batch, claims);
      if (curve) curves.push(curve);
    }
    return curves;
  }

  /** One that cannot be read is left out: the others speak without it. */
  async #curveOrNone(batch: BatchRecord, claims: readonly ClaimRecord[]): Promise<FinishedBatch | null> {
    try {
      return (await this.#foundBad(batch)) ? null : await this.#curveOf(batch, claims);
    } catch (error) {
      this.#log.warn({ err: error, batch: batch.id }, 'a finished batch cannot be read');
      this.#answers.delete(batch.stage); // it may be readable when it is asked next
      return null;
    }
  }

  /** By the newest word of a person on it; a batch nobody spoke of counts. */
  async #foundBad({ pileId, startedAtMs, endedAtMs }: BatchRecord): Promise<boolean> {
    const [word] = await this.#journal.entries.list({
      pileId,
      fromMs: startedAtMs,
      toMs: (endedAtMs ?? startedAtMs) + 1,
      kinds: ['readiness'],
      limit: 1,
    });
    return word?.what.kind === 'readiness' && (word.what.smell === 'bad' || word.what.look === 'bad');
  }

  async #curveOf(batch: BatchRecord, claims: readonly ClaimRecord[]): Promise<FinishedBatch | null> {
    const known = this.#curves.get(batch.id);
    if (known !== undefined) return known;
    const curve = await this.#read(batch, claims);
    this.#curves.set(batch.id, curve);
    return curve;
  }

  async #read(batch: BatchRecord, claims: readonly ClaimRecord[]): Promise<FinishedBatch | null> {
    const { pileId, startedAtMs } = batch;
    const endMs = batch.endedAtMs ?? startedAtMs;
    const hours = Math.ceil((endMs - startedAtMs) / msPerHour);
    const coreByHourC: (number | null)[] = new Array(hours).fill(null);
    let measured = 0;
    for (const { claim, position } of pileSources(claims, pileId, '')) {
      const fromMs = Math.max(startedAtMs, claim.fromMs);
      const toMs = Math.min(endMs, claim.toMs ?? endMs);
      if (position !== 'core' || fromMs >= toMs) continue;
      const series = [{ site: claim.site, probe: claim.probe, quantity: 'temperature' as const }];
      const { columns } = await this.#readings.buckets(series, fromMs, toMs, hours + 1);
      for (const [i, atMs] of (columns[0]?.startMs ?? []).entries()) {
        const hour = Math.max(0, Math.floor((atMs - startedAtMs) / msPerHour));
        const meanC = columns[0]?.mean[i];
        if (meanC === undefined || hour >= hours) continue;
        coreByHourC[hour] = meanC;
        measured += 1;
      }
    }
    return measured >= 24 ? { coreByHourC } : null;
  }
}
