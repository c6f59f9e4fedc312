/** What one look found, for whoever runs `branhearth check`. */
export const parts = ['settings', 'folder', 'broker', 'readings', 'journal', 'mail', 'push'] as const;
export type Part = (typeof parts)[number];

export interface Finding {
  readonly part: Part;
  /** Off is not set up, which may be meant. */
  readonly state: 'ok' | 'off' | 'wrong';
  readonly says: string;
  /** What to do, where `says` does not say it. */
  readonly mend?: string | undefined;
}

export function messageOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  // Node leaves the text empty where it tried several addresses.
  return error.message || String((error as NodeJS.ErrnoException).code ?? error.name);
}

/** The first line whose pattern fits what went wrong. */
export function mendFor(error: unknown, ways: readonly (readonly [RegExp, string])[]): string | undefined {
  const said = `${String((error as { code?: unknown }).code ?? '')} ${messageOf(error)}`;
  return ways.find(([pattern]) => pattern.test(said))?.[1];
}

/** What cannot be trusted is the same wherever TLS is spoken. */
export const untrusted = [
  /self.signed|unable to (get|verify)|certificate|altnames/i,
  'its certificate is not trusted here: name the file of the authority that signed it in NODE_EXTRA_CA_CERTS, or give the address the certificate was made for',
] as const;
