import { describe, expect, test } from 'vitest';
import { type DiskArrow, type DiskLevel, stepDisk } from '../../../server/health/disk-level.ts';
import { DiskWatch } from '../../../server/health/disk-watch.ts';
import { type NoticeChange, SystemNotices } from '../../../server/health/system-notices.ts';

const mb = 1_000_000;
const rows: [DiskLevel, number, DiskLevel, DiskArrow][] = [
  // from  free [MB], mark 1000  to     arrow
  ['ok', 1_000, 'ok', 'stay'],
  ['ok', 999, 'low', 'ran-low'],
  ['ok', 20, 'low', 'ran-low'],
  ['ok', 19, 'full', 'ran-full'],
  ['low', 1_000, 'low', 'stay'],
  ['low', 1_099, 'low', 'stay'],
  ['low', 1_100, 'ok', 'freed-enough'],
  ['low', 20, 'low', 'stay'],
  ['low', 19, 'full', 'ran-full'],
  ['full', 21, 'full', 'stay'],
  ['full', 22, 'low', 'freed-some'],
  ['full', 1_050, 'low', 'freed-some'],
  ['full', 1_100, 'ok', 'freed-enough'],
];
for (const [from, freeMb, to, arrow] of rows) {
  test(`stepDisk() from ${from} with ${freeMb} MB left of a mark of 1000 MB: ${arrow}`, () => {
    expect(stepDisk(from, freeMb * mb, 1_000 * mb)).toEqual({ level: to, arrow });
  });
}

describe('a disk watch', () => {
  function watching(free: { bytes: number }) {
    const notices = new SystemNotices();
    const changes: NoticeChange[] = [];
    notices.onChange((change) => changes.push(change));
    const watch = new DiskWatch({
      folder: '/nowhere',
      lowBytes: 1_000 * mb,
      clock: { nowMs: () => 1_000, speed: 1 },
      log: { info() {}, warn() {} },
      notices,
      async freeBytes() {
        if (free.bytes < 0) throw new Error('the disk is gone');
        return free.bytes;
      },
    });
    return { watch, notices, changes };
  }

  test('raises one notice for each level, and clears it once there is room again', async () => {
    const free = { bytes: 2_000 * mb };
    const { watch, notices, changes } = watching(free);
    const states: string[] = [];
    for (const bytes of [2_000, 900, 900, 5, 5, 900, 2_000]) {
      free.bytes = bytes * mb;
      await watch.check();
      states.push(watch.health().state);
    }
    expect(states).toEqual(['ok', 'degraded', 'degraded', 'down', 'down', 'degraded', 'ok']);
    expect(changes.map(({ notice }) => notice?.severity ?? 'cleared')).toEqual([
      'warning',
      'critical',
      'warning',
      'cleared',
    ]);
    expect(notices.standing()).toEqual([]);
  });

  test('says what is left, what follows and what to do', async () => {
    const { watch } = watching({ bytes: 5 * mb });
    await watch.check();
    expect(watch.health().detail).toMatch(/^The disk is full: 5 MB left .* not acknowledged.* Make room:/);
  });

  test('a disk that cannot be asked is said, and raises nothing false', async () => {
    const { watch, changes } = watching({ bytes: -1 });
    await watch.check();
    expect(watch.health()).toMatchObject({
      state: 'degraded',
      detail: 'How much room is left cannot be seen (the disk is gone)',
    });
    expect(changes).toEqual([]);
  });
});
