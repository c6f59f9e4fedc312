/**
 * The sketches before the embedded broker, over outages: in MicroPython's own interpreter (its build for the web, 1.27), and as
 * the Arduino sketch compiled for this machine.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, test } from 'vitest';
import { createAuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import { type Ending, fillIn, type ProbeSettings } from '../../../ingest/probes/fill-in.ts';
import { liveClock } from '../../../shared/clock.ts';
import { openIngest } from '../open-ingest.ts';
import { ArduinoBoard, hasCompiler } from './board/arduino-board.ts';
import type { Board, Waking } from './board/board.ts';
import { MicroPythonBoard } from './board/micropython-board.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const sketchOf = (ending: Ending, settings: ProbeSettings) =>
  fillIn(readFileSync(new URL(`../../../ingest/probes/probe.${ending}`, import.meta.url), 'utf8'), ending, settings);

const stepMs = 600_000;
const startMs = Math.floor((Date.now() - 100 * stepMs) / 1000) * 1000;

async function begin(open: (settings: ProbeSettings) => Board, change: Partial<ProbeSettings> = {}) {
  const authPolicy = createAuthPolicy({ clock: liveClock, root: 'piles', rules: { everyProbeNeedsAKey: true } });
  const secretSha256 = createHash('sha256').update('a "quoted" \\ secret').digest('hex');
  authPolicy.setKeys([
    { id: 'key-1', secretSha256, site: 'saltmere-yard', probe: 'core-3', foreign: [], hears: 'own' },
  ]);
  const opened = await openIngest({ kind: 'embedded', port: 0, host: '127.0.0.1', authPolicy });
  closing.push(() => opened.ingest.close());
  const settings: ProbeSettings = {
    wifi: 'Saltmere',
    wifiPassword: 'none of your business',
    broker: '127.0.0.1',
    port: Number(new URL(opened.ingest.url).port),
    user: 'key-1',
    password: 'a "quoted" \\ secret',
    root: 'piles',
    site: 'saltmere-yard',
    probe: 'core-3',
    withSoil: false,
    withBattery: false,
    ...change,
  };
  const board = open(settings);
  let count = 0;
  /** The n-th waking measures 40 °C and n tenths. */
  const wake = async (found: Partial<Waking> = {}) => {
    const worldMs = startMs + count * stepMs;
    const woken = await board.wake({
      worldMs,
      hasNetwork: true,
      hasTimeServer: true,
      chipC: Math.round(400 + count) / 10,
      pinsV: {},
      mayAskBroker: -1,
      ...found,
    });
    count += 1;
    return woken;
  };
  /** What the store has of a quantity: in which step it was measured, and the value. */
  const kept = (quantity = 'temperature') =>
    [...opened.store.kept.values()]
      .filter((reading) => reading.quantity === quantity)
      .map(({ atMs, value }) => [(atMs - startMs) / stepMs, value] as const)
      .sort(([a], [b]) => a - b);
  return { ...opened, board, wake, kept };
}

/** What n wakings measure. */
const measured = (...steps: number[]) => steps.map((step) => [expect.closeTo(step, 1), (400 + step) / 10]);

const sketches = [
  {
    name: 'MicroPython',
    isThere: true,
    open: (settings: ProbeSettings) => new MicroPythonBoard(sketchOf('py', settings)),
  },
  {
    name: 'Arduino',
    isThere: hasCompiler,
    open: (settings: ProbeSettings) => {
      const board = new ArduinoBoard(sketchOf('ino', settings));
      closing.push(() => board.remove());
      return board;
    },
  },
];

const none = { hasNetwork: false };

describe.each(sketches)('the sketch for $name', ({ isThere, open }) => {
  const beginWith = (change?: Partial<ProbeSettings>) => begin(open, change);

  test.skipIf(!isThere)('a reading of every waking is there, with its time', async () => {
    const { wake, kept, ingest } = await beginWith();
    for (let i = 0; i < 3; i += 1) await wake();
    expect(kept()).toEqual(measured(0, 1, 2));
    expect(ingest.refusals().refusals).toEqual([]);
  });

  test.skipIf(!isThere)('over an outage everything is kept, and afterwards it is there once', async () => {
    const { wake, kept, committed } = await beginWith();
    await wake();
    for (let i = 0; i < 4; i += 1) await wake(none);
    expect(kept()).toEqual(measured(0));
    await wake();
    expect(kept()).toEqual(measured(0, 1, 2, 3, 4, 5));
    await wake();
    expect(committed.length).toBe(7);
  });

  test.skipIf(!isThere)(
    'where the network goes away in the middle of it, what was not acknowledged is sent again, and counts once',
    async () => {
      const { wake, kept, ingest } = await beginWith();
      await wake();
      for (let i = 0; i < 3; i += 1) await wake(none);
      // Of each reading a few calls: wherever it breaks off, nothing is lost and nothing counts twice.
      for (let calls = 1; calls < 30; calls += 4) await wake({ mayAskBroker: calls });
      await wake();
      expect(kept()).toEqual(measured(...Array.from({ length: 13 }, (_, step) => step)));
      expect(ingest.refusals().refusals).toEqual([]);
    },
  );

  test.skipIf(!isThere)('what was measured before the clock was ever set is dated when it is', async () => {
    const { wake, kept } = await beginWith();
    await wake(none);
    await wake({ hasTimeServer: false });
    expect(kept()).toEqual([]);
    await wake();
    expect(kept()).toEqual(measured(0, 1, 2));
  });

  test.skipIf(!isThere)(
    'without power the flash keeps what has its time, and what can never be dated goes',
    async () => {
      const { wake, kept, board, ingest } = await beginWith();
      await wake();
      await wake(none);
      board.losePower();
      await wake(none); // undated
      board.losePower();
      await wake();
      expect(kept()).toEqual(measured(0, 1, 3));
      await wake(none);
      await wake(none);
      board.losePower(true); // while the last was being written
      await wake();
      expect(kept()).toEqual(measured(0, 1, 3, 4, 6));
      expect(ingest.refusals().refusals).toEqual([]);
    },
  );

  test.skipIf(!isThere)(
    'a chip that does not answer leaves the rest, and a board without anything to say sleeps on',
    async () => {
      const { wake, kept } = await beginWith({ withSoil: true, withBattery: true });
      await wake({ chipC: null, pinsV: { 34: 1.7, 35: 1.95 } });
      expect([kept(), kept('moisture'), kept('battery')]).toEqual([
        [],
        [[expect.closeTo(0, 1), 50]],
        [[expect.closeTo(0, 1), 3.9]],
      ]);
      const bare = await beginWith();
      await bare.wake({ chipC: null });
      await bare.wake();
      expect(bare.kept()).toEqual(measured(1));
    },
  );

  test.skipIf(!isThere)('with a wrong key everything stays on the board', async () => {
    const { wake, kept } = await beginWith({ password: 'another' });
    const { kept: onBoard } = await wake();
    expect(kept()).toEqual([]);
    expect(onBoard).toMatch(/"temperature": ?40/);
  });

  test.skipIf(!isThere)('flash is bounded: beyond about 2,000 readings the oldest go, never the newest', async () => {
    const { wake, board } = await beginWith();
    await wake();
    const one = (step: number) => `\n${board.lineOf(startMs / 1000 - 90_000 + step, `2${step % 10}.5`)}\n`;
    board.fill(Array.from({ length: 3000 }, (_, step) => one(step)).join(''));
    const { kept } = await wake(none);
    expect(kept.length).toBeLessThan(100_000);
    expect(kept.length).toBeGreaterThan(80_000);
    expect(kept).toContain(one(2999));
    expect(kept).toMatch(/"temperature": ?40\.10*\}\n$/);
  });
});
