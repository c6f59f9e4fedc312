/** Templates of home automation hubs, worked out by the library that they use (Jinja), with their own names of times. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

export const hasJinja = existsSync('/usr/lib/python3/dist-packages/jinja2/__init__.py');
if (!hasJinja) {
  console.warn(
    '\n*** NOT TESTED: templates for hubs; Jinja is not installed (Debian: apt-get install python3-jinja2) ***\n',
  );
}

const program = `
import datetime, json, sys
from jinja2.sandbox import ImmutableSandboxedEnvironment
given = json.load(sys.stdin)
now = datetime.datetime.fromisoformat(given["now"])
def stamp(of):
    return (of if isinstance(of, datetime.datetime) else datetime.datetime.fromisoformat(of)).timestamp()
env = ImmutableSandboxedEnvironment()
env.globals.update(now=lambda: now, utcnow=lambda: now, as_timestamp=stamp)
known = {} if given["state"] == "" else {"value_json": json.loads(given["state"])}
json.dump([env.from_string(one).render(value=given["state"], **known).strip() for one in given["templates"]], sys.stdout)
`;

/** @param state As the topic has it. */
export function rendered(templates: readonly string[], state: string, nowMs: number): string[] {
  const input = JSON.stringify({ templates, state, now: new Date(nowMs).toISOString().replace('Z', '+00:00') });
  return JSON.parse(execFileSync('/usr/bin/python3', ['-c', program], { input, encoding: 'utf8' })) as string[];
}
