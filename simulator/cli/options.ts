/**
 * The command line and the environment as checked values. A wrong option ends it: it is named, with what it must be and
 * what it was.
 */
import { parseArgs } from 'node:util';
import { ConfigError } from '../../shared/errors.ts';
import { namePattern } from '../../shared/names.ts';
import { quantitySchema } from '../../shared/quantity.ts';
import { defaultRoot, type PayloadForm, payloadForms } from '../publish/payload.ts';
import type { Take } from '../replay/replay-csv.ts';

interface CommonOptions {
  readonly mqttUrl: string;
  readonly username: string | undefined;
  readonly password: string | undefined;
  readonly root: string;
  readonly form: PayloadForm;
  readonly connectionPer: 'probe' | 'site' | undefined;
  readonly csvPath: string | undefined;
  readonly speed: number;
  readonly start: string | undefined;
  readonly clockText: string | undefined;
  readonly historyH: number | undefined;
  readonly durationH: number | undefined;
}

export interface RunOptions extends CommonOptions {
  readonly command: 'run';
  readonly scenario: string;
  readonly seed: number;
  readonly siteCount: number | undefined;
  readonly pileCount: number | undefined;
  readonly stepS: number;
  readonly truthPath: string | undefined;
}

export interface ReplayCommandOptions extends CommonOptions {
  readonly command: 'replay';
  readonly path: string;
  readonly takes: readonly Take[];
  readonly timeColumn: string;
  readonly site: string;
  readonly fahrenheit: boolean;
}

export type Options = RunOptions | ReplayCommandOptions | { readonly command: 'help' | 'schema' };

const flags = {
  help: { type: 'boolean', short: 'h' },
  mqtt: { type: 'string' },
  username: { type: 'string' },
  root: { type: 'string' },
  payload: { type: 'string' },
  lines: { type: 'string' },
  csv: { type: 'string' },
  speed: { type: 'string' },
  start: { type: 'string' },
  clock: { type: 'string' },
  history: { type: 'string' },
  duration: { type: 'string' },
  scenario: { type: 'string' },
  seed: { type: 'string' },
  sites: { type: 'string' },
  piles: { type: 'string' },
  step: { type: 'string' },
  truth: { type: 'string' },
  take: { type: 'string', multiple: true },
  time: { type: 'string' },
  site: { type: 'string' },
  unit: { type: 'string' },
} as const;

/** @throws {ConfigError} If an option is unknown or wrong. */
export function readOptions(args: readonly string[], env: NodeJS.ProcessEnv = process.env): Options {
  const { values, positionals } = parse(args);
  const [command = 'run', ...rest] = positionals;
  if (values.help === true || command === 'help') return { command: 'help' };
  if (command === 'schema') return { command: 'schema' };
  const common: CommonOptions = {
    mqttUrl: values.mqtt ?? 'mqtt://127.0.0.1:1883',
    username: values.username,
    password: env.BRANHEARTH_MQTT_PASSWORD,
    root: values.root ?? defaultRoot,
    form: oneOf('--payload', values.payload ?? 'object', payloadForms),
    connectionPer: values.lines === undefined ? undefined : oneOf('--lines', values.lines, ['probe', 'site'] as const),
    csvPath: values.csv,
    speed: number('--speed', values.speed, 1, 3600) ?? 1,
    start: values.start,
    clockText: values.clock ?? env.BRANHEARTH_CLOCK,
    historyH: number('--history', values.history, 0, 10_000),
    durationH: number('--duration', values.duration, 0.01, 10_000),
  };
  if (command === 'run') {
    if (rest.length > 0) throw new ConfigError(`Cannot understand "${rest[0]}": see --help`);
    return {
      command,
      ...common,
      scenario: values.scenario ?? 'demo',
      seed: number('--seed', values.seed, 0, 4_294_967_295, true) ?? 1,
      siteCount: number('--sites', values.sites, 1, 10_000, true),
      pileCount: number('--piles', values.piles, 1, 10_000, true),
      stepS: number('--step', values.step, 10, 300) ?? 300,
      truthPath: values.truth,
    };
  }
  if (command !== 'replay') throw new ConfigError(`Cannot understand "${command}": it must be run, replay or schema`);
  const [path] = rest;
  if (path === undefined) throw new ConfigError('Cannot replay as a CSV file must be named: see --help');
  const takes = (values.take ?? []).map(takeOf);
  if (takes.length === 0)
    throw new ConfigError('Cannot replay as at least one --take COL=PROBE.QUANTITY must be given');
  const site = values.site ?? 'saltmere-yard';
  if (!namePattern.test(site))
    throw new ConfigError(
      `Cannot use --site as it must be 1-64 of a-z, 0-9, hyphen, underscore: current value is "${site}"`,
    );
  return {
    command,
    ...common,
    path,
    takes,
    timeColumn: values.time ?? 'time',
    site,
    fahrenheit: oneOf('--unit', values.unit ?? 'C', ['C', 'F'] as const) === 'F',
  };
}

function parse(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: flags, allowPositionals: true, strict: true });
  } catch (cause) {
    throw new ConfigError(`Cannot understand the command line: ${cause instanceof Error ? cause.message : cause}`, {
      cause,
    });
  }
}

/** COL=PROBE.QUANTITY; the column may hold "=" itself, names of probes may not. */
function takeOf(text: string): Take {
  const match = /^(.+)=([a-z0-9_-]+)\.([a-z0-9]+)$/.exec(text);
  const quantity = quantitySchema.safeParse(match?.[3]);
  if (match?.[1] === undefined || match[2] === undefined || !quantity.success) {
    throw new ConfigError(`Cannot use --take as it must be COL=PROBE.QUANTITY: current value is "${text}"`);
  }
  return { column: match[1], probe: match[2], quantity: quantity.data };
}

function number(name: string, text: string | undefined, min: number, max: number, whole = false): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (text.trim() === '' || !(value >= min && value <= max) || (whole && !Number.isInteger(value))) {
    throw new ConfigError(
      `Cannot use ${name} as it must be a ${whole ? 'whole ' : ''}number within ${min}..${max}: current value is "${text}"`,
    );
  }
  return value;
}

function oneOf<T extends string>(name: string, value: string, allowed: readonly T[]): T {
  const found = allowed.find((item) => item === value);
  if (found === undefined)
    throw new ConfigError(`Cannot use ${name} as it must be one of ${allowed.join(', ')}: current value is "${value}"`);
  return found;
}
