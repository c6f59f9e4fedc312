#!/usr/bin/env -S node --max-semi-space-size=4
/**
 * The command `branhearth` of an installed program: it hands over to the program that is asked for, and imports nothing before it
 * has looked at which Node runs it.
 */
import { oldNode } from '../app/old-node.ts';

const server = '../app/main.js';
const programs: Readonly<Record<string, string>> = {
  start: server,
  demo: '../../simulator/demo/main.js',
  simulate: '../../simulator/cli/main.js',
  check: '../check/main.js',
  backup: '../backup/backup.js',
  restore: '../backup/restore.js',
  'move-readings': '../move/main.js',
  'move-journal': '../move/move-journal-main.js',
};

const problem = oldNode(process.version);
const name = process.argv[2] ?? 'start';
const isOption = name.startsWith('-');
const program = isOption ? server : programs[name];
if (problem !== undefined || program === undefined) {
  console.error(
    problem ??
      `branhearth ${name} is no command: take one of ${Object.keys(programs).join(', ')}, or branhearth --help`,
  );
  process.exitCode = problem === undefined ? 2 : 1;
} else {
  // Each of them reads what follows its own name.
  if (!isOption && process.argv.length > 2) process.argv.splice(2, 1);
  void import(new URL(program, import.meta.url).href);
}
