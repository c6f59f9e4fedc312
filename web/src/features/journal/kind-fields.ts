/** What the inputs of each kind of entry are given. */
import type { Stage } from '../../../../shared/names.ts';
import type { EntryDraft } from './entry-draft.ts';

export interface EntryFieldsProps {
  readonly draft: EntryDraft;
  /** Of the pile. */
  readonly stage: Stage;
  readonly onDraft: (change: Partial<EntryDraft>) => void;
  readonly errors: ReadonlyMap<string, string>;
}

export interface KindProps extends Omit<EntryFieldsProps, 'errors'> {
  /** What is wrong with a field of the entry. */
  readonly wrong: (field: string) => string | undefined;
}

/** Choices with their names. */
export const named = <Value extends string>(values: readonly Value[], nameOf: (value: Value) => string) =>
  values.map((value) => [value, nameOf(value)] as const);
