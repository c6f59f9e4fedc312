/** Everything as files, the dates as a calendar to follow, labels to print. */
import { useState } from 'preact/hooks';
import { type ExportSubject, exportSubjects } from '../../../../shared/contracts/records.ts';
import { reasonOf } from '../../data/client.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { FileLink } from '../../ui/parts/file-link.tsx';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { getCalendar, renewCalendar } from './records-api.ts';
import './records.css';

const subjectNames: Record<ExportSubject, string> = {
  sites: 'Places',
  piles: 'Piles',
  batches: 'Batches',
  entries: 'Journal',
  'earlier-versions': 'What corrected entries said before',
  alarms: 'Warnings',
  lots: 'Starters and materials',
  flows: 'What went where',
  uses: 'Uses',
};

export function RecordsPage() {
  const heading = usePage('Records');
  const piles = useInstallation((installation) => installation.piles) ?? [];
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          Records
        </h1>
        <p class="lead">
          All of it is yours and can leave in plain files. The record of one batch is on{' '}
          <a href="/batches">the batch’s own page</a>.
        </p>
      </div>
      <Part id="files" title="As files">
        <p>
          <FileLink path="/api/export/all.json" name="branhearth.json">
            Everything in one file (JSON)
          </FileLink>
        </p>
        <ul class="file-list">
          {exportSubjects.map((subject) => (
            <li key={subject}>
              <span>{subjectNames[subject]}</span>
              <span class="file-forms">
                {(['csv', 'json'] as const).map((form) => (
                  <FileLink key={form} path={`/api/export/${subject}.${form}`} name={`${subject}.${form}`}>
                    {form.toUpperCase()}
                    <span class="unseen"> of {subjectNames[subject]}</span>
                  </FileLink>
                ))}
              </span>
            </li>
          ))}
        </ul>
        <p class="hint">Readings are taken out batch by batch, from each record. CSV opens in any spreadsheet.</p>
        <May to="keeper">
          <p class="after-files">
            <a href="/import">Import</a>
          </p>
        </May>
      </Part>
      <Calendar />
      <Part id="labels" title="Labels">
        <p>A label on a pile opens its journal when a phone reads its code.</p>
        <ul class="file-list">
          {piles.map((pile) => (
            <li key={pile.id}>
              <a href={`/piles/${pile.id}/label`}>Label for {pile.name}</a>
            </li>
          ))}
        </ul>
      </Part>
    </div>
  );
}

function Calendar() {
  const { value, error, refresh } = useQuery('calendar', getCalendar);
  const mutation = useMutation();
  const [status, setStatus] = useState('');
  const copy = async (address: string) => {
    try {
      await navigator.clipboard.writeText(address);
      setStatus('Copied.');
    } catch {
      setStatus('This browser does not let a page copy: select the address and copy it by hand.');
    }
  };
  return (
    <Part id="calendar" title="In your calendar">
      <p>Turns, checks and likely readiness, followed by your own calendar program at this address:</p>
      {error !== undefined && <p class="quiet">{reasonOf(error)}</p>}
      {value && (
        <>
          <div class="copy-line">
            <pre>{value.address}</pre>
            <button type="button" onClick={() => void copy(value.address)}>
              Copy
            </button>
          </div>
          <p role="status" class={status ? 'hint' : 'unseen'}>
            {status}
          </p>
          <p class="hint">{value.says}</p>
          <details class="more">
            <summary>The address came into wrong hands</summary>
            <p>A new one is made; calendars that follow the old one stop.</p>
            <button
              type="button"
              disabled={mutation.busy}
              onClick={() =>
                void mutation.run(async () => {
                  await renewCalendar();
                  await refresh();
                  setStatus('Renewed. Give the new address to your calendar.');
                })
              }
            >
              Renew the address
            </button>
            <Refusal error={mutation.error} />
          </details>
        </>
      )}
    </Part>
  );
}
