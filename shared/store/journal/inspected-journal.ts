/**
 * A journal that is only inspected. It never makes one, changes its tables or holds it, so a server may be at work on it
 * meanwhile.
 */
export interface InspectedJournal {
  /** As it may be shown. */
  readonly where: string;
  /** Else at a server. */
  readonly inFile: boolean;
  /** Rows that a question gives. */
  ask(question: string): Promise<Record<string, unknown>[]>;
  /** Writes, and takes it back. @throws {StoreError} */
  tryWriting(): Promise<void>;
  close(): Promise<void>;
}
