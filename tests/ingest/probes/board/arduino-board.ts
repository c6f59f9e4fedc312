/** A board that runs the Arduino sketch: compiled for this machine with stand-ins for the core, and real sockets to a broker. */
import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { expect } from 'vitest';
import type { Board, Waking, Woken } from './board.ts';

const run = promisify(execFile);
const standIns = fileURLToPath(new URL('arduino', import.meta.url));

export const hasCompiler = existsSync('/usr/bin/g++');
if (!hasCompiler) {
  console.warn('\n*** NOT TESTED: the Arduino sketch. g++ is not installed (Debian: apt-get install g++) ***\n');
}

export class ArduinoBoard implements Board {
  readonly #folder = mkdtempSync(join(tmpdir(), 'branhearth-board-'));
  readonly #program: Promise<unknown>;
  #boardMs = 0; // 1970, where the clock of such a board stands when it gets power
  #isCold = true;
  #sleptAtMs = 0;

  constructor(sketch: string) {
    this.#program = this.#compile(sketch);
  }

  async wake(waking: Waking): Promise<Woken> {
    await this.#program;
    if (!this.#isCold) this.#boardMs += waking.worldMs - this.#sleptAtMs;
    const { stdout } = await run(join(this.#folder, 'probe'), {
      cwd: this.#folder,
      env: environmentOf(waking, this.#boardMs, this.#isCold),
    });
    const { sleepMs, boardMs, awakeMs } = JSON.parse(stdout) as { sleepMs: number; boardMs: number; awakeMs: number };
    expect(sleepMs).toBe(600_000);
    this.#boardMs = boardMs;
    this.#isCold = false;
    this.#sleptAtMs = waking.worldMs + awakeMs;
    return { kept: readFileSync(this.#kept, 'utf8'), boardMs, awakeMs };
  }

  losePower(cut = false): void {
    this.#isCold = true;
    this.#boardMs = 0;
    if (cut) this.fill(readFileSync(this.#kept, 'utf8').slice(0, -6));
  }

  lineOf(atS: number, temperatureC: string): string {
    return `${atS} {"temperature":${Number(temperatureC).toFixed(4)}}`;
  }

  fill(kept: string): void {
    writeFileSync(this.#kept, kept);
  }

  remove(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }

  get #kept(): string {
    return join(this.#folder, 'kept.txt');
  }

  /** Arduino puts a prototype of each function before the sketch; ours needs none. */
  async #compile(sketch: string): Promise<void> {
    const source = join(this.#folder, 'sketch.cpp');
    writeFileSync(source, sketch);
    const strict = ['-std=c++17', '-Wall', '-Wextra', '-Werror', '-fsanitize=address,undefined'];
    await run('/usr/bin/g++', [
      ...strict,
      `-I${standIns}`,
      source,
      join(standIns, 'main.cpp'),
      '-o',
      join(this.#folder, 'probe'),
    ]);
  }
}

function environmentOf(waking: Waking, boardMs: number, isCold: boolean): NodeJS.ProcessEnv {
  const { worldMs, hasNetwork, hasTimeServer, chipC, pinsV, mayAskBroker } = waking;
  return {
    BOARD_MS: String(boardMs),
    WORLD_MS: String(worldMs),
    SENDS: String(mayAskBroker),
    ...(isCold && { COLD: '1' }),
    ...(hasNetwork && { NETWORK: '1' }),
    ...(hasTimeServer && { TIME_SERVER: '1' }),
    ...(chipC !== null && { CHIP_C: String(chipC) }),
    ...Object.fromEntries(Object.entries(pinsV).map(([pin, volts]) => [`PIN_${pin}`, String(volts)])),
  };
}
