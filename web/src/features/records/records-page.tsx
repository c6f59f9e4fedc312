/** Everything as files, the dates as a calendar to follow, labels to print. */
import { useState } from 'preact/hooks';
import { type ExportSubject, exportSubjects } from '../../../../shared/contracts/records.ts';
import { calendarTexts } from '../../../../shared/messages/made/en/calendar.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { reasonOf } from '../../data/client.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { FileLink } from '../../ui/parts/file-link.tsx';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { getCalendar, renewCalendar } from './records-api.ts';
import { useRecordWords } from './use-record-words.ts';
import './records.css';

const renderCalendar = rendererOf(calendarTexts);

/** As texts have it: the name of a choice there has no hyphen. */
const subjectKey = (subject: ExportSubject) => (subject === 'earlier-versions' ? 'earlier' : subject);

export function RecordsPage() {
  const { text, rich } = useRecordWords();
  const heading = usePage(text('page-records.records'));
  const piles = useInstallation((installation) => installation.piles) ?? [];
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-records.records')}
        </h1>
        <p class="lead">{rich('page-records.records.lead', { link: (inner) => <a href="/batches">{inner}</a> })}</p>
      </div>
      <Part id="files" title={text('page-records.files')}>
        <p>
          <FileLink path="/api/export/all.json" name="branhearth.json">
            {text('page-records.files.all')}
          </FileLink>
        </p>
        <ul class="file-list">
          {exportSubjects.map((subject) => (
            <SubjectFiles key={subject} subject={subject} />
          ))}
        </ul>
        <p class="hint">{text('page-records.files.hint')}</p>
        <May to="keeper">
          <p class="after-files">
            <a href="/import">{text('page-records.files.import')}</a>
          </p>
        </May>
      </Part>
      <Calendar />
      <Part id="labels" title={text('page-records.labels')}>
        <p>{text('page-records.labels.lead')}</p>
        <ul class="file-list">
          {piles.map((pile) => (
            <li key={pile.id}>
              <a href={`/piles/${pile.id}/label`}>{text('page-records.label.of', { pileName: pile.name })}</a>
            </li>
          ))}
        </ul>
      </Part>
    </div>
  );
}

function SubjectFiles({ subject }: { readonly subject: ExportSubject }) {
  const { text, rich } = useRecordWords();
  const subjectText = text('page-records.files.subject', { subject: subjectKey(subject) });
  return (
    <li>
      <span>{subjectText}</span>
      <span class="file-forms">
        {(['csv', 'json'] as const).map((form) => (
          <FileLink key={form} path={`/api/export/${subject}.${form}`} name={`${subject}.${form}`}>
            {rich('page-records.files.form', {
              form,
              subjectText,
              unseen: (inner) => <span class="unseen">{inner}</span>,
            })}
          </FileLink>
        ))}
      </span>
    </li>
  );
}

function Calendar() {
  const { text } = useRecordWords();
  const say = useSay(renderCalendar);
  const { value, error, refresh } = useQuery('calendar', getCalendar);
  const mutation = useMutation();
  const [status, setStatus] = useState('');
  const copy = async (address: string) => {
    try {
      await navigator.clipboard.writeText(address);
      setStatus(text('page-records.calendar.copied'));
    } catch {
      setStatus(text('page-records.calendar.copy-by-hand'));
    }
  };
  return (
    <Part id="calendar" title={text('page-records.calendar')}>
      <p>{text('page-records.calendar.lead')}</p>
      {error !== undefined && <p class="quiet">{reasonOf(error)}</p>}
      {value && (
        <>
          <div class="copy-line">
            <pre>{value.address}</pre>
            <button type="button" onClick={() => void copy(value.address)}>
              {text('page-records.calendar.copy')}
            </button>
          </div>
          <p role="status" class={status ? 'hint' : 'unseen'}>
            {status}
          </p>
          <p class="hint">{say(value.messages.says)}</p>
          <details class="more">
            <summary>{text('page-records.calendar.leaked')}</summary>
            <p>{text('page-records.calendar.leaked.hint')}</p>
            <button
              type="button"
              disabled={mutation.busy}
              onClick={() =>
                void mutation.run(async () => {
                  await renewCalendar();
                  await refresh();
                  setStatus(text('page-records.calendar.renewed'));
                })
              }
            >
              {text('page-records.calendar.renew')}
            </button>
            <Refusal error={mutation.error} />
          </details>
        </>
      )}
    </Part>
  );
}
