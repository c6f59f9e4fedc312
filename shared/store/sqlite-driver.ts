/**
 * The SQLite driver for the Node that runs this: the newest line brings its binary in its package and crashes on Node 20, for
 * which server/build.mjs compiles the line before it.
 */
import { createRequire } from 'node:module';
import type BetterSqlite from 'better-sqlite3';

const load = createRequire(import.meta.url);
const forNode20 = 'better-sqlite3-node-20';

const Database = load(nameFor(process.versions.node)) as typeof BetterSqlite;
// Its types under the names that the package gives them.
declare namespace Database {
  type Database = BetterSqlite.Database;
  type Statement<Bound extends unknown[] | object = unknown[], Result = unknown> = BetterSqlite.Statement<
    Bound,
    Result
  >;
}
export default Database;

function nameFor(node: string): string {
  if (Number(node.split('.')[0]) >= 22) return 'better-sqlite3';
  if (isThere(forNode20)) return forNode20;
  const { version } = load('better-sqlite3/package.json') as { version: string };
  if (version.startsWith('12.')) return 'better-sqlite3';
  throw new Error(
    `On Node 20 the database library is compiled where Branhearth is built from its sources: run \`node server/build.mjs\` there, which wants Python and a C++ compiler, or take Node 22 or later, which wants neither`,
  );
}

function isThere(name: string): boolean {
  try {
    load.resolve(name);
    return true;
  } catch {
    return false;
  }
}
