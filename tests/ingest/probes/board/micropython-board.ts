/** A board that runs MicroPython: the project's own interpreter, with the hardware stood in for and real sockets to a broker. */
import { readFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { MessageChannel, type MessagePort, Worker } from 'node:worker_threads';
import { expect } from 'vitest';
import type { Board, Waking, Woken } from './board.ts';

const standIns = Object.fromEntries(
  readFileSync(new URL('stand-ins.py', import.meta.url), 'utf8')
    .split('# file: ')
    .slice(1)
    .map((part) => [part.slice(0, part.indexOf('\n')), part.slice(part.indexOf('\n') + 1)]),
);

/** 2000-01-01, where the clock of such a board stands when it gets power. */
const unsetMs = 946_684_800_000;

/** Keeps its flash from one waking to the next, and its clock while it has power. */
export class MicroPythonBoard implements Board {
  readonly #sketch: string;
  #kept: string | undefined;
  #boardMs = unsetMs;
  #isCold = true;
  #sleptAtMs = 0;

  constructor(sketch: string) {
    this.#sketch = sketch;
  }

  async wake(waking: Waking): Promise<Woken> {
    if (!this.#isCold) this.#boardMs += waking.worldMs - this.#sleptAtMs;
    const files = this.#kept === undefined ? standIns : { ...standIns, 'kept.txt': this.#kept };
    const woken = await runWaking({
      ...waking,
      sketch: this.#sketch,
      files,
      boardMs: this.#boardMs,
      isCold: this.#isCold,
    });
    this.#kept = woken.kept;
    this.#boardMs = woken.boardMs;
    this.#isCold = false;
    this.#sleptAtMs = waking.worldMs + woken.awakeMs;
    expect(woken.fault, woken.printed.join('\n')).toMatch(/asleep for 600000 ms/);
    return woken;
  }

  lineOf(atS: number, temperatureC: string): string {
    return `{"time": ${atS}, "temperature": ${temperatureC}}`;
  }

  fill(kept: string): void {
    this.#kept = kept;
  }

  /** @param cut Whether the power went while a reading was being written. */
  losePower(cut = false): void {
    this.#isCold = true;
    this.#boardMs = unsetMs;
    if (cut) this.#kept = this.#kept?.slice(0, -6);
  }
}

interface Ended extends Woken {
  readonly printed: readonly string[];
  readonly fault: string;
}

function runWaking(waking: object): Promise<Ended> {
  const { port1, port2 } = new MessageChannel();
  const signal = new Int32Array(new SharedArrayBuffer(4));
  const worker = new Worker(new URL('board-worker.mjs', import.meta.url), {
    workerData: { port: port2, signal, waking },
    transferList: [port2],
  });
  return new Promise((resolve, reject) => {
    const link = new Link(port1, signal);
    worker.once('error', reject);
    port1.on('message', (said: string | Ended) => {
      if (typeof said === 'string') return link.asked(said);
      link.end();
      port1.close();
      void worker.terminate().then(() => resolve(said));
    });
  });
}

/** One socket, asked by a thread that waits. */
class Link {
  readonly #port: MessagePort;
  readonly #signal: Int32Array;
  #socket: Socket | undefined;
  #came = Buffer.alloc(0);
  #wanted = 0;
  #isOver = false;

  constructor(port: MessagePort, signal: Int32Array) {
    this.#port = port;
    this.#signal = signal;
  }

  asked(request: string): void {
    const [what, first = '', second = ''] = request.split(' ');
    if (what === 'connect') this.#connect(first, Number(second));
    else if (what === 'send') {
      this.#socket?.write(Buffer.from(first, 'hex'));
      this.#answer('');
    } else if (what === 'recv') {
      this.#wanted = Number(first);
      this.#give();
    } else {
      this.end();
      this.#answer('');
    }
  }

  end(): void {
    this.#socket?.destroy();
  }

  #connect(host: string, port: number): void {
    const socket = connect(port, host);
    this.#socket = socket;
    socket.once('connect', () => this.#answer(''));
    socket.on('error', (error) => {
      if (socket.connecting || socket.pending) this.#answer(`-${error.message}`);
    });
    socket.on('data', (data) => {
      this.#came = Buffer.concat([this.#came, data]);
      this.#give();
    });
    socket.on('close', () => {
      this.#isOver = true;
      this.#give();
    });
  }

  #give(): void {
    if (this.#wanted === 0 || (this.#came.length === 0 && !this.#isOver)) return;
    const given = this.#came.subarray(0, this.#wanted);
    this.#came = this.#came.subarray(given.length);
    this.#wanted = 0;
    this.#answer(given.toString('hex'));
  }

  #answer(said: string): void {
    this.#port.postMessage(said);
    Atomics.store(this.#signal, 0, 1);
    Atomics.notify(this.#signal, 0);
  }
}
