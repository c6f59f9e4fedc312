/** The backups that the server makes each night: the last good one, where they are, how large. */
import { type BackupsAnswer, backupsAnswerSchema } from '../../../../shared/contracts/backups.ts';
import { ask, reasonOf } from '../../data/client.ts';
import { useQuery } from '../../data/use-query.ts';
import { sizeWords } from '../../ui/format/amount.ts';
import { dayAndTime, type Reader } from '../../ui/format/local-time.ts';
import { Part } from '../../ui/parts/part.tsx';
import './retention.css';

const getBackups = () => ask(backupsAnswerSchema, '/api/backups');

export function Backups({ reader }: { readonly reader: Reader }) {
  const { value, error } = useQuery('backups', getBackups);
  return (
    <Part id="backups" title="Backups">
      {error !== undefined && <p class="refusal">{reasonOf(error)}</p>}
      {value && <Standing backups={value} reader={reader} />}
    </Part>
  );
}

function Standing({ backups, reader }: { readonly backups: BackupsAnswer; readonly reader: Reader }) {
  const { state, folder, keep, lastGoodAt, isOld, problem } = backups;
  if (state === 'elsewhere') return <p>All readings and records are at servers: back them up there.</p>;
  if (state === 'off') {
    return <p class="refusal">No backup is made by itself: it is switched off (BRANHEARTH_BACKUPS).</p>;
  }
  return (
    <>
      <p class={isOld ? 'refusal' : undefined} role="status">
        {lastGoodAt === null
          ? 'No backup yet: one is made each night at three.'
          : `Last good backup: ${dayAndTime(Date.parse(lastGoodAt), reader)}. It was opened and read back.`}
        {isOld && ' That is more than three days ago.'}
      </p>
      {problem !== null && <p class="refusal">The last try went wrong and is made again within an hour. {problem}</p>}
      <p>
        One is made each night and the last {keep} are kept, in <code>{folder}</code>. A disk that breaks takes them
        along: copy them to another machine now and then, or let BRANHEARTH_BACKUP_COMMAND do so.
      </p>
      {backups.backups.length > 0 && (
        <ul class="keeping-list">
          {backups.backups.map(({ name, madeAt, bytes }) => (
            <li key={name}>
              {dayAndTime(Date.parse(madeAt), reader)}, {sizeWords(bytes)}
              {name.startsWith('before-') && ', made before an update'}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
