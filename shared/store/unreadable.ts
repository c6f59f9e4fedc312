/**
 * Rows that cannot be read as what they should be. They stay where they are and as they are: others are read without
 * them, and whoever keeps the installation hears which they are.
 */
import { StoreError } from '../errors.ts';

export interface UnreadableRow {
  readonly table: string;
  readonly id: string;
  readonly column: string;
  /** Why, without what stands there: "is no JSON". */
  readonly reason: string;
  /** The pile it belongs to, where the row says so. */
  readonly pileId: string | null;
  /** The rest of the row is used; for this column something usual stands in. */
  readonly partly: boolean;
}

/** One row was asked for, and it cannot be read. */
export class UnreadableRowError extends StoreError {
  readonly row: UnreadableRow;

  constructor(row: UnreadableRow) {
    super(`Cannot read ${rowWords(row)}`);
    this.row = row;
  }
}

/** @example rowWords(...) // => 'batch "b1" as its column recipe is no JSON' */
export function rowWords({ table, id, column, reason }: UnreadableRow): string {
  return `${table} "${id}" as its column ${column} ${reason}`;
}

/** Those met so far by whoever reads this journal; one that reads well again is forgotten. */
export class UnreadableRows {
  readonly #met = new Map<string, UnreadableRow>();
  readonly #listeners = new Set<(row: UnreadableRow) => void>();

  note(row: UnreadableRow): void {
    const key = keyOf(row.table, row.id);
    const known = this.#met.get(key);
    if (known?.column === row.column && known.reason === row.reason) return;
    this.#met.set(key, row);
    for (const listener of this.#listeners) listener(row);
  }

  /** The row was read, and it is whole. Cheap while all are. */
  wasRead(table: string, idOf: () => string): void {
    if (this.#met.size > 0) this.#met.delete(keyOf(table, idOf()));
  }

  /** A whole table was read: of its rows only these still cannot be. */
  keepOnly(table: string, ids: ReadonlySet<string>): void {
    for (const [key, row] of this.#met) if (row.table === table && !ids.has(row.id)) this.#met.delete(key);
  }

  has(table: string, id: string): boolean {
    return this.#met.has(keyOf(table, id));
  }

  list(): UnreadableRow[] {
    return [...this.#met.values()];
  }

  ofPile(pileId: string): UnreadableRow[] {
    return this.list().filter((row) => row.pileId === pileId);
  }

  /** @returns a way to stop listening. */
  onMet(listener: (row: UnreadableRow) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }
}

const keyOf = (table: string, id: string) => `${table}/${id}`;
