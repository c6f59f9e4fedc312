/** One waking of a board in a thread of its own: MicroPython with stand-ins for the hardware, and sockets that block as a board's do. */
import { receiveMessageOnPort, workerData } from 'node:worker_threads';
import { loadMicroPython } from '@micropython/micropython-webassembly-pyscript/micropython.mjs';

const { port, signal, waking } = workerData;
let boardMs = waking.boardMs;
let ticksMs = 0;
const printed = [];

/** Asks the main thread, which has the sockets, and waits. */
function ask(request) {
  Atomics.store(signal, 0, 0);
  port.postMessage(request);
  Atomics.wait(signal, 0, 0);
  return receiveMessageOnPort(port).message;
}

let left = waking.mayAskBroker;
const board = {
  seconds: () => Math.floor(boardMs / 1000),
  ticksMs: () => ticksMs,
  passTime: (ms) => {
    boardMs += ms;
    ticksMs += ms;
  },
  hasNetwork: () => waking.hasNetwork,
  hasTimeServer: () => waking.hasTimeServer,
  setClock: () => {
    boardMs = waking.worldMs + ticksMs;
  },
  isCold: () => waking.isCold,
  /** Null where the chip does not answer. */
  chipC: () => waking.chipC,
  pinV: (pin) => waking.pinsV[pin] ?? 0,
  /** @returns Hexadecimal digits of what came, or an error's text after a dash. */
  ask: (request) => {
    if (left === 0) return '-the network went away';
    left -= 1;
    return ask(request);
  },
};

const mp = await loadMicroPython({ stdout: (line) => printed.push(line), linebuffer: true });
mp.registerJsModule('board', board);
for (const [path, text] of Object.entries(waking.files)) mp.FS.writeFile(path, text);
let fault = null;
try {
  mp.runPython(waking.sketch);
} catch (error) {
  fault = String(error.message ?? error);
}
const kept = mp.FS.analyzePath('kept.txt').exists ? mp.FS.readFile('kept.txt', { encoding: 'utf8' }) : '';
port.postMessage({ over: true, printed, fault, kept, boardMs, awakeMs: ticksMs });
