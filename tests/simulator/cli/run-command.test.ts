import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { readOptions } from '../../../simulator/cli/options.ts';
import { runCommand } from '../../../simulator/cli/run-command.ts';
import { openBroker } from '../open-broker.ts';

const folder = mkdtempSync(join(tmpdir(), 'branhearth-simulate-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const never = new AbortController().signal;

async function run(args: string[], env: NodeJS.ProcessEnv = {}): Promise<void> {
  const options = readOptions(args, env);
  if (options.command !== 'run' && options.command !== 'replay') throw new Error('not a run');
  await runCommand(options, never);
}

describe('runCommand()', () => {
  test('runCommand() of a YAML scenario writes the same rows for the same seed, and the truth beside them', async () => {
    const csv = (name: string) => join(folder, `${name}.csv`);
    const truth = join(folder, 'truth.jsonl');
    const args = [
      '--scenario',
      'simulator/scenarios/probe-faults.yaml',
      '--duration',
      '60',
      '--start',
      '2031-06-01T06:00:00Z',
    ];
    await run([...args, '--csv', csv('one'), '--truth', truth]);
    await run([...args, '--csv', csv('two')]);
    expect(readFileSync(csv('one'), 'utf8')).toBe(readFileSync(csv('two'), 'utf8'));
    const rows = readFileSync(csv('one'), 'utf8').trim().split('\r\n');
    expect(rows[0]).toBe('sent_at,measured_at,site,probe,temperature_c,humidity_pct,moisture_pct,co2_ppm,battery_v');
    expect(rows.filter((row) => row.includes(',well,'))).toHaveLength(60 * 12);
    const lines = readFileSync(truth, 'utf8')
      .trim()
      .split('\n')
      .map((line): Record<string, unknown> => JSON.parse(line));
    expect(lines.filter(({ kind }) => kind === 'hour')).toHaveLength(61);
    const [summary] = lines.filter(({ kind }) => kind === 'pile');
    expect(summary).toMatchObject({ pile: 'bed of faults', passes50AtH: null, stalledAtH: null });
    expect(summary?.faults).toHaveLength(10);
  });
  test('runCommand() of the two stages lays the soil bed when the bran is done', async () => {
    const path = join(folder, 'stages.csv');
    await run([
      '--scenario',
      'simulator/scenarios/two-stages.yaml',
      '--duration',
      '200',
      '--start',
      '2031-06-01T06:00:00Z',
      '--csv',
      path,
    ]);
    const first = readFileSync(path, 'utf8')
      .split('\r\n')
      .find((row) => row.includes(',soil-core,'));
    expect(first?.startsWith('2031-06-07T06:')).toBe(true);
  });
  test('runCommand() replays the litter heap over MQTT on the server clock, as fast as it goes', async () => {
    const open = await openBroker();
    try {
      const setting = { startMs: Date.UTC(2031, 5, 1), anchorMs: Date.now(), speed: 100_000 };
      await run(
        [
          'replay',
          'tests/data/litter-heap-2023-hourly.csv',
          '--time',
          'time_local',
          '--site',
          'saltmere-yard',
          '--take',
          'T12_C=litter-core.temperature',
          '--take',
          'T11_C=litter-base.temperature',
          '--take',
          'air_temp_C=litter-air.temperature',
          '--duration',
          '48',
          '--mqtt',
          open.url,
        ],
        { BRANHEARTH_CLOCK: JSON.stringify(setting) },
      );
      const core = open.heard.filter(({ topic }) => topic === 'piles/saltmere-yard/litter-core/reading');
      expect(core).toHaveLength(49);
      expect(JSON.parse(core[0]?.payload ?? '')).toEqual({ temperature: 25.094, time: '2031-06-01T00:00:00.000Z' });
      for (const { payload, atMs } of core) {
        const clockMs = setting.startMs + (atMs - setting.anchorMs) * setting.speed;
        expect(Date.parse((JSON.parse(payload) as { time: string }).time)).toBeLessThanOrEqual(clockMs);
      }
    } finally {
      await open.close();
    }
  });
});
