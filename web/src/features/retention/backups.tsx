/** The backups that the server makes each night: the last good one, where they are, how large. */
import { type BackupsAnswer, backupsAnswerSchema } from '../../../../shared/contracts/backups.ts';
import { ask, reasonOf } from '../../data/client.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime, type Reader } from '../../ui/format/local-time.ts';
import { Part } from '../../ui/parts/part.tsx';
import './retention.css';
import { useRetentionWords } from './use-retention-words.ts';

const getBackups = () => ask(backupsAnswerSchema, '/api/backups');

export function Backups({ reader }: { readonly reader: Reader }) {
  const { text } = useRetentionWords();
  const { value, error } = useQuery('backups', getBackups);
  return (
    <Part id="backups" title={text('page-retention.backups')}>
      {error !== undefined && <p class="refusal">{reasonOf(error)}</p>}
      {value && <Standing backups={value} reader={reader} />}
    </Part>
  );
}

function Standing({ backups, reader }: { readonly backups: BackupsAnswer; readonly reader: Reader }) {
  const { text, rich } = useRetentionWords();
  const { state, folder, keep, lastGoodAt, isOld, problem } = backups;
  if (state === 'elsewhere') return <p>{text('page-retention.backups.elsewhere')}</p>;
  if (state === 'off') return <p class="refusal">{text('page-retention.backups.off')}</p>;
  return (
    <>
      <p class={isOld ? 'refusal' : undefined} role="status">
        {lastGoodAt === null
          ? text('page-retention.backups.none')
          : text('page-retention.backups.last', { madeText: dayAndTime(Date.parse(lastGoodAt), reader), isOld })}
      </p>
      {problem !== null && <p class="refusal">{text('page-retention.backups.problem', { problemText: problem })}</p>}
      <p>
        {rich('page-retention.backups.kept', {
          keepCount: keep,
          folderText: folder ?? '',
          mono: (inner) => <code>{inner}</code>,
        })}
      </p>
      {backups.backups.length > 0 && (
        <ul class="keeping-list">
          {backups.backups.map(({ name, madeAt, bytes }) => (
            <li key={name}>
              {text('page-retention.backups.one', {
                madeText: dayAndTime(Date.parse(madeAt), reader),
                takenBytes: bytes,
                isBeforeUpdate: name.startsWith('before-'),
              })}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
