/** Everything of the journal that is SQLite's own. */
import type { Database } from 'better-sqlite3';
import {
  CompiledQuery,
  type DatabaseConnection,
  type Driver,
  SqliteAdapter,
  SqliteDialect,
  SqliteDriver,
} from 'kysely';

export class JournalSqliteDialect extends SqliteDialect {
  readonly #db: Database;

  constructor(db: Database) {
    super({ database: db });
    this.#db = db;
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = FULL'); // in WAL mode NORMAL would lose the newest commits with the power
    db.pragma('foreign_keys = ON');
  }

  override createDriver(): Driver {
    return new ImmediateDriver(this.#db);
  }

  override createAdapter(): SqliteAdapter {
    return new DdlInTransactionAdapter();
  }
}

class ImmediateDriver extends SqliteDriver {
  readonly #db: Database;

  constructor(db: Database) {
    super({ database: db });
    this.#db = db;
  }

  /** Every transaction of ours writes, and one that waits for its first write could fail in the middle. */
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw('begin immediate'));
  }

  /** A full disk rolls back by itself; a second ROLLBACK would fail and hide the reason. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#db.inTransaction) await super.rollbackTransaction(connection);
  }
}

/** SQLite can undo a half-done migration; Kysely's own adapter leaves that unused. */
class DdlInTransactionAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}
