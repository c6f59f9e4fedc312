/**
 * How far a run has come, on one line of the terminal, ten times a second at most; a stream that is no terminal gets nothing.
 */
import type { WriteStream } from 'node:tty';

const cells = 30;

export function progressBar(
  out: WriteStream,
  fromMs: number,
  untilMs: number,
): { reached(atMs: number, count: number): void; done(): void } {
  let lastDrawnMs = 0;
  const draw = (atMs: number, count: number) => {
    const share = Math.min(1, Math.max(0, (atMs - fromMs) / (untilMs - fromMs)));
    const full = Math.round(share * cells);
    const bar = `${'='.repeat(full)}${' '.repeat(cells - full)}`;
    out.write(
      `\r[${bar}] ${(share * 100).toFixed(0).padStart(3)} %  ${((atMs - fromMs) / 3_600_000).toFixed(1)} h  ${count} readings `,
    );
  };
  return {
    reached(atMs, count) {
      if (!out.isTTY || Date.now() - lastDrawnMs < 100) return;
      lastDrawnMs = Date.now();
      draw(atMs, count);
    },
    done() {
      if (out.isTTY) out.write('\n');
    },
  };
}
