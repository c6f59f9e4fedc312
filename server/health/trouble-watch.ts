/**
 * Tells owners of piles that nobody watches, and of records that cannot be read.
 */
import type { Clock } from '../../shared/clock.ts';
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { rowWords, type UnreadableRows } from '../../shared/store/unreadable.ts';
import type { PilePort, TroubledPile } from '../pile/pile-port.ts';
import type { SystemNotices } from './system-notices.ts';

export interface TroubleWatchParts {
  readonly watch: Pick<PilePort, 'all' | 'troubles'>;
  readonly unreadable: UnreadableRows;
  readonly clock: Clock;
  readonly notices: SystemNotices;
}

const lookEveryMs = 5_000;
/** A store that is started anew is away for a moment. What cannot be read will not mend itself and people are notified at once. */
const patienceMs = 60_000;
const mostNamed = 3;
const restore = message('notice.system.restore');
const measureByHand = message('notice.system.piles.todo');

export class TroubleWatch {
  readonly #parts: TroubleWatchParts;
  /** Since when each pile has been in trouble [ms of the machine]. */
  readonly #sinceMs = new Map<string, number>();
  #timer: NodeJS.Timeout | undefined;

  constructor(parts: TroubleWatchParts) {
    this.#parts = parts;
  }

  start(): void {
    this.check();
    this.#timer = setInterval(() => this.check(), lookEveryMs).unref();
  }

  close(): void {
    clearInterval(this.#timer);
  }

  check(machineNowMs = Date.now()): void {
    this.#checkPiles(machineNowMs);
    this.#checkRows();
  }

  #checkPiles(machineNowMs: number): void {
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
      seen: seenOf(standing, watch.all().length),
      todo: paragraph(measureByHand, restore),
      about: standing.map(({ pileId }) => pileId),
    });
  }

  #checkRows(): void {
    const { unreadable, notices, clock } = this.#parts;
    const rows = unreadable.list();
    if (rows.length === 0) {
      notices.clear('records');
      return;
    }
    const rowCount = rows.length;
    const named = { rowsText: rows.slice(0, mostNamed).map(rowWords).join('; '), moreCount: beyond(rowCount) };
    notices.raise({
      kind: 'records',
      severity: 'warning',
      sinceMs: clock.nowMs(),
      seen: message('notice.system.records', { rowCount, ...named }),
      todo: paragraph(message('notice.system.records.todo', { rowCount }), restore),
      about: rows.map(({ table, id }) => `${table}/${id}`),
    });
  }
}

const isLasting = ({ code }: TroubledPile) => code === 'batch-unreadable' || code === 'records-unreadable';

function seenOf(standing: readonly TroubledPile[], pileCount: number): Message {
  const unjudged = standing.filter(({ judged }) => !judged);
  const unkept = standing.filter(({ judged }) => judged);
  return paragraph(
    unjudged.length === 0
      ? null
      : message('notice.system.piles.unjudged', { unjudgedCount: unjudged.length, pileCount, ...named(unjudged) }),
    unkept.length === 0
      ? null
      : message('notice.system.piles.unkept', { unkeptCount: unkept.length, pileCount, ...named(unkept) }),
  );
}

const named = (piles: readonly TroubledPile[]) => ({
  namesText: piles
    .slice(0, mostNamed)
    .map(({ name }) => name)
    .join(', '),
  moreCount: beyond(piles.length),
});

const beyond = (count: number) => Math.max(0, count - mostNamed);
