/** Reads a scenario file, YAML or JSON. It never guesses: the first wrong field is named with what it must be. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { ConfigError } from '../../shared/errors.ts';
import { fieldFault } from '../../shared/messages/field-fault.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { type Scenario, scenarioSchema } from './scenario-schema.ts';

/** @throws {ConfigError} If the file cannot be read, is neither YAML nor JSON, or breaks the schema. */
export function readScenario(path: string): Scenario {
  let data: unknown;
  try {
    // JSON is YAML too (YAML 1.2, section 1.2).
    data = parse(readFileSync(path, 'utf8'));
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message.split('\n')[0] : String(cause);
    throw new ConfigError(`Cannot read scenario ${path}: ${reason}`, { cause });
  }
  const checked = scenarioSchema.safeParse(data);
  if (checked.success) return checked.data;
  const [issue] = checked.error.issues;
  const where =
    issue === undefined ? '' : ` at /${issue.path.map(String).join('/')}: ${plainEnglish(fieldFault(issue))}`;
  throw new ConfigError(`Cannot use scenario ${path}${where}`);
}
