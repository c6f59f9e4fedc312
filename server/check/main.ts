/** `npm run check`: whether all that this farm's server needs is there, and how to mend what is not. */
import { parseArgs } from 'node:util';
import { readConfig } from '../../shared/config.ts';
import { checkAll } from './check-all.ts';
import { type Finding, type Part, parts } from './finding.ts';

const usage = `npm run check -- [PART ...]

Looks at what the settings (BRANHEARTH_*) name, with the server running or not, and says of each part how it is and how to
mend it. Parts are ${parts.join(', ')}; all of them unless some are named. Nothing is kept of it: what is
written to find out is taken back, in InfluxDB 3 all but one point. Ends with 0 when nothing is wrong, else with 1.`;

async function main(): Promise<void> {
  process.umask(0o077);
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { help: { type: 'boolean', short: 'h' } },
  });
  if (values.help) {
    console.log(usage);
    return;
  }
  const strange = positionals.filter((name) => !isPart(name));
  if (strange.length > 0) {
    console.error(`There is no part ${strange.join(', ')} to check: take some of ${parts.join(', ')}`);
    process.exitCode = 2;
    return;
  }
  const wanted = positionals.length === 0 ? parts : positionals.filter(isPart);
  let wrong = 0;
  await checkAll(readConfig(process.env), wanted, (finding) => {
    if (finding.state === 'wrong') wrong += 1;
    console.log(lineOf(finding));
  });
  console.log(wrong === 0 ? 'Nothing is wrong.' : `${wrong} of ${wanted.length} ${wrong === 1 ? 'is' : 'are'} wrong.`);
  if (wrong > 0) process.exitCode = 1;
}

const isPart = (name: string): name is Part => (parts as readonly string[]).includes(name);

function lineOf({ part, state, says, mend }: Finding): string {
  const line = `${part.padEnd(8)}  ${state.padEnd(5)}  ${says}`;
  return mend === undefined ? line : `${line}\n${' '.repeat(17)}Mend: ${mend}`;
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
