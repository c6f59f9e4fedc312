import { readdirSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { patienceMs } from './tests/helpers/until.ts';

const tests = readdirSync('tests', { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.test\.tsx?$/.test(path) && !path.includes('node_modules'))
  .map((path) => `tests/${path}`);

/** Takes hold of what all files of a process share: modules, globals, its clock, its memory. */
const needsItsOwn = (path: string) => /\bvi\.|process\.(on|memoryUsage)\b|memoryInUse/.test(readFileSync(path, 'utf8'));

/** Long ones begin first, so that none of them is left to run alone at the end. */
class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rooms = ['walkthrough', 'system', 'web', 'server'];
    const rank = ({ moduleId, project }: TestSpecification) => {
      const room = rooms.findIndex((name) => moduleId.includes(`/tests/${name}/`));
      return (project.config.isolate ? 0 : 10) + (room === -1 ? rooms.length : room);
    };
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}

export default defineConfig({
  // Components are compiled for Preact; tests under tests/web may render them.
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    // Much of what tests do is wait for a process, a browser or a broker.
    maxWorkers: Math.min(2 * availableParallelism(), 8),
    globalSetup: 'tests/helpers/folder-of-run.ts',
    sequence: { sequencer: LongFirst },
    // What a test may take before it hangs. It judges no speed.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: patienceMs } },
    projects: [
      // One process reads the sources once for all the files it runs: half of the suite's time was reading them.
      {
        extends: true,
        test: { name: 'together', isolate: false, include: tests.filter((path) => !needsItsOwn(path)) },
      },
      { extends: true, test: { name: 'alone', isolate: true, include: tests.filter(needsItsOwn) } },
    ],
  },
});
