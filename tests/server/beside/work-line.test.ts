import { describe, expect, test } from 'vitest';
import { WorkLine } from '../../../server/beside/work-line.ts';
import { Refusal } from '../../../server/refusal.ts';

/** Work that begins when its turn comes, is noted, and ends when it is let. */
function bench(line: WorkLine) {
  const begun: string[] = [];
  const ends = new Map<string, () => void>();
  const ask = (person: string, name: string) =>
    line.run(person, () => {
      begun.push(name);
      return new Promise<string>((resolve) => ends.set(name, () => resolve(name)));
    });
  const end = async (name: string) => {
    ends.get(name)?.();
    await new Promise((resolve) => setImmediate(resolve));
  };
  return { begun, ask, end };
}

describe('a line of heavy work', () => {
  test('does so much at once, and takes people in turn, not whoever asked most', async () => {
    const { begun, ask, end } = bench(new WorkLine({ atOnce: 1, mostOfOne: 4, mostWaiting: 10 }));
    const all = [ask('kim', 'k1'), ask('kim', 'k2'), ask('kim', 'k3'), ask('vera', 'v1'), ask('olive', 'o1')];
    expect(begun).toEqual(['k1']);
    for (const [index, expected] of ['v1', 'o1', 'k2', 'k3'].entries()) {
      await end(begun[index] ?? '');
      expect(begun.at(-1)).toBe(expected);
    }
    await end('k3');
    expect(await Promise.all(all)).toEqual(['k1', 'k2', 'k3', 'v1', 'o1']);
  });

  test('refuses what one person asks for beyond their share, and takes it again once something is done', async () => {
    const { begun, ask, end } = bench(new WorkLine({ atOnce: 1, mostOfOne: 2, mostWaiting: 10 }));
    const first = ask('kim', 'k1');
    const second = ask('kim', 'k2');
    const refused = await ask('kim', 'k3').catch((error: Refusal) => error);
    expect(refused).toBeInstanceOf(Refusal);
    expect(refused).toMatchObject({ status: 429, more: { retryAfterS: 5 } });
    await end('k1');
    const fourth = ask('kim', 'k4');
    await end('k2');
    await end('k4');
    expect(await Promise.all([first, second, fourth])).toEqual(['k1', 'k2', 'k4']);
    expect(begun).toEqual(['k1', 'k2', 'k4']);
  });

  test('refuses everybody when too many wait, and goes on after work that failed', async () => {
    const line = new WorkLine({ atOnce: 1, mostOfOne: 2, mostWaiting: 1 });
    const { ask, end } = bench(line);
    const first = ask('kim', 'k1');
    const fails = line.run('vera', () => Promise.reject(new Error('no paper')));
    fails.catch(() => {});
    await expect(ask('olive', 'o1')).rejects.toMatchObject({ status: 503 });
    await end('k1');
    await expect(fails).rejects.toThrowError('no paper');
    const last = ask('olive', 'o2');
    await end('o2');
    expect([await first, await last]).toEqual(['k1', 'o2']);
  });
});
