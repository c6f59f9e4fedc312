/** The backups that are made each night. */
import { backupsAnswerSchema } from '../../../shared/contracts/backups.ts';
import type { NightlyBackups } from '../../backup/nightly-backups.ts';
import type { Api } from '../api.ts';

const elsewhere = {
  state: 'elsewhere',
  folder: null,
  keep: 0,
  lastGoodAt: null,
  isOld: false,
  backups: [],
  problem: null,
} as const;

export function registerBackups(api: Api, parts: { readonly backups?: Pick<NightlyBackups, 'view'> }): void {
  api.get(
    '/api/backups',
    { config: { access: 'keeper' }, schema: { response: { 200: backupsAnswerSchema } } },
    async () => parts.backups?.view() ?? { ...elsewhere, backups: [] },
  );
}
