/** The commands that our README files tell people to type: those in blocks marked `sh`, without what is said beside them. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

export interface FencedCommand {
  readonly file: string;
  readonly line: number;
  readonly command: string;
}

export function readmeFiles(): string[] {
  return execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', '*README.md'], {
    encoding: 'utf8',
  })
    .split('\n')
    .filter((name) => name !== '');
}

export function fencedCommands(files = readmeFiles()): FencedCommand[] {
  return files.flatMap((file) => commandsIn(file, readFileSync(file, 'utf8')));
}

export function commandsIn(file: string, text: string): FencedCommand[] {
  const found: FencedCommand[] = [];
  let language: string | undefined;
  for (const [i, line] of text.split('\n').entries()) {
    const fence = /^\s*```(\w*)/.exec(line);
    if (fence) language = language === undefined ? fence[1] : undefined;
    else if (language === 'sh') {
      const command = withoutRemark(line).trim();
      if (command !== '') found.push({ file, line: i + 1, command });
    }
  }
  return found;
}

/** A `#` begins a remark unless it stands in quotes or within a word, as the shell has it. */
function withoutRemark(line: string): string {
  let quote: string | undefined;
  for (let i = 0; i < line.length; i += 1) {
    const sign = line[i];
    if (quote !== undefined) {
      if (sign === quote) quote = undefined;
    } else if (sign === "'" || sign === '"') quote = sign;
    else if (sign === '#' && (i === 0 || /\s/.test(line[i - 1] ?? ''))) return line.slice(0, i);
  }
  return line;
}
