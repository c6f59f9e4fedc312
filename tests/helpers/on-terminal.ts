/** A program before a terminal of its own (`script`, of every Debian), which can be closed as a window is. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';

export const hasTerminals = existsSync('/usr/bin/script');

export interface OnTerminal {
  /** What stands on the screen. */
  screen(): string;
  /** Types Ctrl-C. */
  interrupt(): void;
  /** As when its window is closed: what runs in it gets SIGHUP. */
  closeWindow(): void;
  readonly ended: Promise<number | null>;
}

export function onTerminal(command: string, environment: Readonly<Record<string, string>>): OnTerminal {
  const child: ChildProcess = spawn('/usr/bin/script', ['-qefc', command, '/dev/null'], {
    env: { PATH: process.env.PATH, TERM: 'dumb', ...environment },
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let seen = '';
  child.stdout?.on('data', (chunk: Buffer) => {
    seen += chunk.toString();
  });
  return {
    screen: () => seen.replaceAll('\r\n', '\n'),
    interrupt: () => child.stdin?.write('\u0003'),
    // The end that a terminal's program holds is gone at once, and the kernel hangs up.
    closeWindow: () => child.kill('SIGKILL'),
    ended: new Promise((resolve) => child.once('exit', (code) => resolve(code))),
  };
}
