/** A copy of the sources, in which a walk-through of DEVELOPERS.md is followed to the letter. */
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { languages } from '../../shared/messages/made/languages.ts';

export interface CopyOfSources {
  /** The code of each step of the section, without the indent that keeps it in its list. */
  readonly steps: readonly string[];
  /** Files of ours that were changed or added, texts left out. */
  readonly touched: readonly string[];
  change(path: string, by: (text: string) => string): void;
  write(path: string, text: string): void;
  /** Puts texts into the catalogues that their codes begin with; languages that are offered get them in English. */
  giveTexts(json: string): void;
  /** Files that do not compile, of all that these lead to. */
  refusedFiles(files: readonly string[]): string[];
  load<Module>(path: string): Promise<Module>;
  remove(): void;
}

export function copySources(section: string): CopyOfSources {
  const copy = mkdtempSync(join(tmpdir(), 'branhearth-walkthrough-'));
  const inCopy = (path: string) => join(copy, path);
  for (const path of ['core', 'shared', 'server', 'ingest', 'simulator', 'web', 'tests/helpers', 'tests/server'])
    cpSync(path, inCopy(path), { recursive: true });
  for (const path of ['package.json', 'tsconfig.json']) cpSync(path, inCopy(path));
  symlinkSync(join(process.cwd(), 'node_modules'), inCopy('node_modules'));

  const text = readFileSync('DEVELOPERS.md', 'utf8').split(`## ${section}\n`)[1]?.split('\n## ')[0] ?? '';
  const steps = [...text.matchAll(/^ {3}```\w+\n(.*?)^ {3}```$/gms)].map(([, code]) =>
    (code ?? '').replaceAll(/^ {3}/gm, ''),
  );

  const touched = new Set<string>();
  const write = (path: string, code: string) => {
    touched.add(path);
    writeFileSync(inCopy(path), code);
  };
  const changed = (path: string, by: (text: string) => string) => {
    const before = readFileSync(inCopy(path), 'utf8');
    const after = by(before);
    expect(after, path).not.toBe(before);
    return after;
  };
  return {
    steps,
    get touched() {
      return [...touched].sort();
    },
    change: (path, by) => write(path, changed(path, by)),
    write,
    giveTexts(json) {
      for (const [code, said] of Object.entries(JSON.parse(json) as Record<string, string>))
        for (const language of languages) {
          const catalogue = `shared/messages/${language}/${code.split('.')[0]}.json`;
          const all = changed(catalogue, (text) => JSON.stringify({ ...JSON.parse(text), [code]: said }, null, 2));
          writeFileSync(inCopy(catalogue), all);
        }
      execFileSync('node', ['shared/messages/make.mjs'], { cwd: copy });
    },
    refusedFiles(files) {
      const compilerOptions = { noEmit: true, incremental: false, lib: ['ES2023', 'DOM'] };
      writeFileSync(
        inCopy('tsconfig.some.json'),
        JSON.stringify({ extends: './tsconfig.json', compilerOptions, files, include: [] }),
      );
      const { stdout } = spawnSync('node', ['node_modules/.bin/tsc', '-p', 'tsconfig.some.json'], {
        cwd: copy,
        encoding: 'utf8',
      });
      return [...new Set([...stdout.matchAll(/^([^\s(]+)\(\d+,\d+\): error/gm)].map(([, file]) => file ?? ''))].sort();
    },
    load: <Module>(path: string) => import(/* @vite-ignore */ inCopy(path)) as Promise<Module>,
    remove: () => rmSync(copy, { recursive: true, force: true }),
  };
}
