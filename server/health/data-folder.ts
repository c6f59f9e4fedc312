/** The data folder, made where it is missing, and looked at before a database says less clearly what is wrong with it. */
import { access, constants, mkdir, readdir } from 'node:fs/promises';
import { userInfo } from 'node:os';
import { join, resolve } from 'node:path';
import { ConfigError } from '../../shared/errors.ts';

/** The databases, and what SQLite keeps beside them. */
const ours = /^(journal|readings)\.db/;

/** @throws {ConfigError} One line that names the folder, or the file in it that belongs to somebody else. */
export async function makeDataFolder(path: string): Promise<void> {
  try {
    await mkdir(path, { recursive: true });
  } catch (error) {
    throw wrongFolder(path, `this program runs as ${runsAs()}: ${messageOf(error)}`, error);
  }
  await mustBeUsable(path);
}

/** @throws {ConfigError} */
export async function mustBeUsable(path: string): Promise<void> {
  try {
    await access(path, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    throw wrongFolder(path, `this program runs as ${runsAs()}: ${messageOf(error)}`, error);
  }
  for (const name of (await readdir(path)).filter((one) => ours.test(one))) {
    try {
      await access(join(path, name), constants.R_OK | constants.W_OK);
    } catch (error) {
      throw wrongFolder(path, `${name} in it is not for ${runsAs()} to write: ${messageOf(error)}`, error);
    }
  }
}

function wrongFolder(path: string, why: string, cause: unknown): ConfigError {
  return new ConfigError(
    `BRANHEARTH_DATA_DIR must be a folder this program may read and write; it was ${JSON.stringify(resolve(path))} (${why})`,
    { cause },
  );
}

function runsAs(): string {
  try {
    return userInfo().username;
  } catch {
    // A container may run under a number that no name belongs to.
    return `user ${process.getuid?.() ?? '?'}`;
  }
}

const messageOf = (error: unknown) => (error instanceof Error ? error.message : String(error));
