/** `npm run bench -- <name>`: one bench, its table, and one JSON object on the last line. */
import { cpus, totalmem } from 'node:os';

/** Numbers, lists of them, or figures of one part by name. */
interface Figures {
  readonly [name: string]: number | readonly number[] | Figures;
}

interface Bench {
  /** Prints its table and gives the figures. @param part Of those that have parts: only this one. */
  run(part?: string): Promise<Figures>;
}

const benches: Record<string, { what: string; load: () => Promise<Bench> }> = {
  ingest: { what: 'messages per second into the committed store', load: () => import('./ingest.ts') },
  query: { what: 'a year of four probes over the series route', load: () => import('./query.ts') },
  curves: { what: 'the expected curve of a batch by 200 members over 14 days', load: () => import('./curves.ts') },
  replay: { what: 'readings per second through the whole judging', load: () => import('./replay.ts') },
  detect: {
    what: 'warnings and forecasts against simulated piles whose truth is known',
    load: () => import('./detect.ts'),
  },
  thin: { what: 'a year downsampled to its last 90 days while readings come in', load: () => import('./thin.ts') },
  scale: { what: 'probes that one machine carries live, and its memory', load: () => import('./scale.ts') },
  faults: {
    what: 'readings and alarms while brokers, databases, workers, disk and clock fail (part: single, servers)',
    load: () => import('./faults.ts'),
  },
  small: {
    what: 'one core, 512 MB and a slow disk: start, memory, bytes written a day, a year of readings (part: day, year)',
    load: () => import('./small.ts'),
  },
  soak: { what: 'an hour of 10,000 probes: does memory or lag grow', load: () => import('./soak.ts') },
  influx: { what: 'readings per second into InfluxDB, against its bare client', load: () => import('./influx.ts') },
  siege: {
    what: 'how fast others are answered while the program is attacked (part: subscribe, unreleased, imports, papers, halfSent)',
    load: () => import('./siege.ts'),
  },
  page: {
    what: 'the pages on a slow phone: read, usable, drawn, pressed, live (part: first, pile, visit, many, live)',
    load: () => import('./page.ts'),
  },
  simulator: { what: 'days of a pile simulated per second', load: () => import('./simulator.ts') },
};

const name = process.argv[2] ?? '';
const bench = benches[name];
if (!bench) {
  const list = Object.entries(benches).map(([known, { what }]) => `  ${known.padEnd(12)}${what}`);
  console.error(`usage: npm run bench -- <name> [part]\n${list.join('\n')}`);
  process.exit(2);
}
const figures = await (await bench.load()).run(process.argv[3]);
const machine = `${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}, ${Math.round(totalmem() / 2 ** 30)} GiB`;
console.log(JSON.stringify({ bench: name, ...figures, machine, node: process.version }));
process.exit(0);
