/** Something the person does that the server may refuse. */
import { useState } from 'preact/hooks';
import { ApiProblem } from './client.ts';

export interface Mutation {
  readonly busy: boolean;
  readonly error: unknown;
  /** What is wrong with the field at a JSON Pointer, if that is why it was refused. */
  fieldError(pointer: string): string | undefined;
  /** @returns whether it was done. */
  run(act: () => Promise<unknown>): Promise<boolean>;
  clear(): void;
}

export function useMutation(): Mutation {
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>(undefined);
  return {
    busy,
    error,
    fieldError: (pointer) => (error instanceof ApiProblem ? error.fieldDetail(pointer) : undefined),
    clear: () => setError(undefined),
    async run(act) {
      setBusy(true);
      setError(undefined);
      try {
        await act();
        return true;
      } catch (refused) {
        setError(refused);
        return false;
      } finally {
        setBusy(false);
      }
    },
  };
}
