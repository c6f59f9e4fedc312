/** Left out by an install that was set to run no scripts, made for another Node, or for a processor that nobody made one for. */
const notBuilt =
  /Could not locate the bindings file|compiled against a different Node\.js version|better_sqlite3\.node/;

/** Why the program cannot start, as one line that a person can act on. */
export function startProblem(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  if (notBuilt.test(message)) {
    return `The database library better-sqlite3 has no binary for Node ${process.versions.node} on ${process.platform}-${process.arch}, or it was removed: install again with \`npm ci\` (Linux, macOS and Windows on x64 or arm64 need no compiler from Node 22 on), then start again`;
  }
  return message;
}
