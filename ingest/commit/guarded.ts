import type { IngestLog } from './inbound-source.ts';

/** A fault of a listener is its own: it must not hold back acknowledgements. */
export function guarded<Args extends unknown[]>(
  name: string,
  log: IngestLog,
  call: (...args: Args) => void,
): (...args: Args) => void {
  return (...args) => {
    try {
      call(...args);
    } catch (error) {
      log.error({ err: error }, `${name} failed`);
    }
  };
}
