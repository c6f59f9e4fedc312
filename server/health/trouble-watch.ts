/**
 * Tells owners of piles that nobody watches, and of records that cannot be read.
 */
import type { Clock } from '../../shared/clock.ts';
import { rowWords, type UnreadableRows } from '../../shared/store/unreadable.ts';
import type { PilePort, TroubledPile } from '../monitor/pile/pile-port.ts';
import { unjudgedWords } from '../monitor/troubles-words.ts';
import type { SystemNotices } from './system-notices.ts';

export interface TroubleWatchParts {
  readonly watch: Pick<PilePort, 'all' | 'troubles'>;
  readonly unreadable: UnreadableRows;
  readonly clock: Clock;
  readonly notices: SystemNotices;
}

const lookEveryMs = 5_000;
/** A store that is started anew is away for a moment. What cannot be read will not mend itself and is told at once. */
const patienceMs = 60_000;
const mostNamed = 3;
const backup =
  'Put a backup back (`npm run restore -- FILE --replace`), or have somebody look at the log, which says what was met.';

export class TroubleWatch {
  readonly #parts: TroubleWatchParts;
  /** Since when each pile has been in trouble [ms of the machine]. */
  readonly #sinceMs = new Map<string, number>();
  #timer: NodeJS.Timeout | undefined;

  constructor(parts: TroubleWatchParts) {
    this.#parts = parts;
  }

  start(): void {
    this.look();
    this.#timer = setInterval(() => this.look(), lookEveryMs).unref();
  }

  close(): void {
    clearInterval(this.#timer);
  }

  look(machineNowMs = Date.now()): void {
    this.#lookAtPiles(machineNowMs);
    this.#lookAtRows();
  }

  #lookAtPiles(machineNowMs: number): void {
    const { watch, notices, clock } = this.#parts;
    const grave = watch.troubles().filter(({ judged, code }) => !judged || code === 'not-kept');
    const ids = new Set(grave.map(({ pileId }) => pileId));
    for (const id of this.#sinceMs.keys()) if (!ids.has(id)) this.#sinceMs.delete(id);
    const standing = grave.filter((trouble) => {
      const sinceMs = this.#sinceMs.get(trouble.pileId) ?? machineNowMs;
      this.#sinceMs.set(trouble.pileId, sinceMs);
      return isLasting(trouble) || machineNowMs - sinceMs >= patienceMs;
    });
    if (standing.length === 0) {
      notices.clear('piles');
      return;
    }
    notices.raise({
      kind: 'piles',
      severity: 'critical',
      sinceMs: Math.min(...standing.map(({ sinceMs }) => sinceMs), clock.nowMs()),
      seen: sentenceOf(standing, watch.all().length),
      todo: `Measure those piles with a long-stem thermometer: they may be heating. ${backup}`,
      about: standing.map(({ pileId }) => pileId),
    });
  }

  #lookAtRows(): void {
    const { unreadable, notices, clock } = this.#parts;
    const rows = unreadable.list();
    if (rows.length === 0) {
      notices.clear('records');
      return;
    }
    const named = rows.slice(0, mostNamed).map(rowWords).join('; ');
    const more = rows.length > mostNamed ? ` and ${rows.length - mostNamed} more` : '';
    notices.raise({
      kind: 'records',
      severity: 'warning',
      sinceMs: clock.nowMs(),
      seen: `${rows.length === 1 ? 'A record' : `${rows.length} records`} cannot be read and ${rows.length === 1 ? 'is' : 'are'} left as found: ${named}${more}.`,
      todo: `Everything else goes on without ${rows.length === 1 ? 'it' : 'them'}. ${backup}`,
      about: rows.map(({ table, id }) => `${table}/${id}`),
    });
  }
}

const isLasting = ({ code }: TroubledPile) => code === 'batch-unreadable' || code === 'records-unreadable';

function sentenceOf(standing: readonly TroubledPile[], pileCount: number): string {
  const unjudged = unjudgedWords(standing, pileCount);
  const unkept = standing.filter(({ judged }) => judged);
  const said = [
    unjudged && `${unjudged}.`,
    unkept.length > 0 &&
      `What is seen of ${unkept.length} of ${pileCount} piles cannot be written down: ${unkept
        .slice(0, mostNamed)
        .map(({ name }) => name)
        .join(', ')}${unkept.length > mostNamed ? ` and ${unkept.length - mostNamed} more` : ''}.`,
  ];
  return said.filter(Boolean).join(' ');
}
