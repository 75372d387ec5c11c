import type { DatabaseSync, SQLInputValue } from 'node:sqlite';
import type { SqliteDatabase } from 'kysely';

/** node:sqlite in the shape that kysely's SQLite dialect asks for. */
export function nodeSqliteDatabase(database: DatabaseSync): SqliteDatabase {
  return {
    close: () => database.close(),
    prepare(sql) {
      const statement = database.prepare(sql);
      // node:sqlite takes null, number, bigint, text and bytes; it throws on anything else, which kysely passes on.
      const values = (parameters: readonly unknown[]) => parameters as readonly SQLInputValue[];
      return {
        reader: statement.columns().length > 0,
        all: (parameters) => statement.all(...values(parameters)),
        run(parameters) {
          // After some failures (a full disk) SQLite has rolled back by itself; kysely's own rollback would then hide the cause.
          if (sql === 'rollback' && !database.isTransaction) return { changes: 0, lastInsertRowid: 0 };
          return statement.run(...values(parameters));
        },
        iterate: (parameters) => statement.iterate(...values(parameters)),
      };
    },
  };
}
