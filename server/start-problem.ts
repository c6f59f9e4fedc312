/** Left out by an install that was told to run no scripts, or made for another Node. */
const notBuilt = /Could not locate the bindings file|compiled against a different Node\.js version/;

/** Why the program cannot start, as one line that a person can act on. */
export function startProblem(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  if (notBuilt.test(message)) {
    return 'The database library better-sqlite3 is not built for this Node, as after an install with --ignore-scripts: run `npm rebuild better-sqlite3`, then start again';
  }
  return message;
}
