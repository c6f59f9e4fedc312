/** Readings or a journal from a table: looked at first, column by column, and kept only when asked. */
import { useState } from 'preact/hooks';
import type { z } from 'zod';
import {
  type ImportAsk,
  type ImportPreview,
  type importDoneSchema,
  importLimits,
} from '../../../../shared/contracts/import.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Choice, Field, PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { commitImport, previewImport } from './import-api.ts';
import { PreviewView } from './preview-view.tsx';
import './import.css';
import { useImportWords } from './use-import-words.ts';

type Done = z.infer<typeof importDoneSchema>;
type Settings = Omit<ImportAsk, 'csv' | 'columns'>;

const said = <T extends object>(settings: T): T =>
  Object.fromEntries(Object.entries(settings).filter(([, value]) => value !== '' && value !== undefined)) as T;

/** A file with its settings, looked at before it is kept; whatever changes is looked at anew. */
function useImporting() {
  const mutation = useMutation();
  const [file, setFile] = useState<{ readonly name: string; readonly csv: string }>();
  const [settings, setSettings] = useState<Settings>({
    kind: 'readings',
    timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    temperatureUnit: 'C',
  });
  const [columns, setColumns] = useState<NonNullable<ImportAsk['columns']>>({});
  const [preview, setPreview] = useState<ImportPreview>();
  const [done, setDone] = useState<Done>();

  const askFor = (meanings: NonNullable<ImportAsk['columns']>): ImportAsk => ({
    ...said(settings),
    csv: file?.csv ?? '',
    columns: meanings,
  });
  const look = (meanings: NonNullable<ImportAsk['columns']>) =>
    mutation.run(async () => {
      setDone(undefined);
      setColumns(meanings);
      setPreview(await previewImport(askFor(meanings)));
    });
  const keep = (digest: string) =>
    mutation.run(async () => {
      setDone(await commitImport({ ...askFor(columns), digest }));
      setPreview(undefined);
    });
  const forget = () => {
    setPreview(undefined);
    setDone(undefined);
  };
  const change = (part: Partial<Settings>) => {
    setSettings({ ...settings, ...part });
    forget();
  };
  const choose = (chosen: typeof file) => {
    setFile(chosen);
    forget();
  };
  return { file, choose, settings, change, columns, preview, done, look, keep, mutation };
}

export function ImportPage() {
  const { text } = useImportWords();
  const heading = usePage(text('page-import.title'));
  const { file, choose, settings, change, columns, preview, done, look, keep, mutation } = useImporting();
  return (
    <div class="page">
      <div class="opening">
        <p class="dateline">
          <a href="/records">{text('page-import.records')}</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {text('page-import.title')}
        </h1>
        <p class="lead">{text('page-import.lead')}</p>
      </div>
      <Part id="file" title={text('page-import.file')}>
        <form
          class="form"
          onSubmit={(event) => {
            event.preventDefault();
            void look({});
          }}
        >
          <FileField name={file?.name} onFile={choose} />
          <FileSettings settings={settings} change={change} wrong={mutation.fieldError} />
          <Refusal error={mutation.error} />
          <button type="submit" class="primary" disabled={mutation.busy || !file}>
            {text('page-import.look')}
          </button>
        </form>
      </Part>
      {preview && (
        <PreviewView
          kind={settings.kind}
          preview={preview}
          busy={mutation.busy}
          onColumn={(heading_, meaning) => void look({ ...columns, [heading_]: meaning })}
          onKeep={() => void keep(preview.digest)}
        />
      )}
      <div role="status">{done && <DoneLine done={done} />}</div>
    </div>
  );
}

function DoneLine({ done }: { readonly done: Done }) {
  const { text } = useImportWords();
  return (
    <p class="sentence">
      {[
        text('page-import.done', { keptCount: done.kept }),
        done.known > 0 && text('page-import.done.known', { knownCount: done.known }),
        done.conflicting > 0 && text('page-import.done.conflicting', { rowCount: done.conflicting }),
        done.downsampled > 0 && text('page-import.done.downsampled', { rowCount: done.downsampled }),
        done.refused > 0 && text('page-import.done.refused', { rowCount: done.refused }),
      ]
        .filter(Boolean)
        .join(' ')}
    </p>
  );
}

interface FileFieldProps {
  readonly name: string | undefined;
  readonly onFile: (file: { name: string; csv: string } | undefined) => void;
}

function FileField({ name, onFile }: FileFieldProps) {
  const { text } = useImportWords();
  const [problem, setProblem] = useState<string>();
  const take = async (file: File | undefined) => {
    setProblem(undefined);
    if (!file) return onFile(undefined);
    if (file.size > importLimits.bytes) {
      setProblem(text('page-import.file.too-large', { mostBytes: importLimits.bytes }));
      return onFile(undefined);
    }
    onFile({ name: file.name, csv: await file.text() });
  };
  return (
    <Field label={text('page-import.file.csv')} hint={name ? undefined : text('page-import.file.hint')} error={problem}>
      {(ids) => (
        <input
          {...ids}
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/plain"
          onChange={(event) => void take(event.currentTarget.files?.[0])}
        />
      )}
    </Field>
  );
}

interface FileSettingsProps {
  readonly settings: Settings;
  readonly change: (part: Partial<Settings>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

function FileSettings({ settings, change, wrong }: FileSettingsProps) {
  const { text } = useImportWords();
  const sites = useInstallation((installation) => installation.sites);
  const piles = useInstallation((installation) => installation.piles) ?? [];
  const none = ['', text('page-import.in-a-column')] as const;
  return (
    <>
      <Choice
        legend={text('page-import.holds')}
        value={settings.kind}
        choices={[
          ['readings', text('page-import.holds.readings')],
          ['entries', text('page-import.holds.entries')],
        ]}
        onValue={(kind) => change({ kind })}
      />
      {settings.kind === 'readings' ? (
        <div class="field-row">
          <PickField
            label={text('page-import.site')}
            value={settings.site ?? ''}
            choices={[none, ...sites.map((site) => [site.id, site.name] as const)]}
            onValue={(site) => change({ site })}
            error={wrong('/site')}
          />
          <TextField
            label={text('page-import.probe')}
            mono
            hint={text('page-import.probe.hint')}
            value={settings.probe ?? ''}
            onValue={(probe) => change({ probe })}
            error={wrong('/probe')}
          />
        </div>
      ) : (
        <PickField
          label={text('page-import.pile')}
          value={settings.pileId ?? ''}
          choices={[none, ...piles.map((pile) => [pile.id, pile.name] as const)]}
          onValue={(pileId) => change({ pileId })}
          error={wrong('/pileId')}
        />
      )}
      <details class="more">
        <summary>{text('page-import.written')}</summary>
        <TextField
          label={text('page-import.zone')}
          value={settings.timeZone ?? ''}
          onValue={(timeZone) => change({ timeZone })}
          error={wrong('/timeZone')}
        />
        <Choice
          legend={text('page-import.order')}
          value={settings.dateOrder ?? ''}
          choices={[
            ['', text('page-import.order.found')],
            ['day-first', text('page-import.order.day-first')],
            ['month-first', text('page-import.order.month-first')],
          ]}
          onValue={(order) => change({ dateOrder: order === '' ? undefined : order })}
        />
        <Choice
          legend={text('page-import.unit')}
          value={settings.temperatureUnit ?? 'C'}
          choices={[
            ['C', '°C'],
            ['F', '°F'],
          ]}
          onValue={(temperatureUnit) => change({ temperatureUnit })}
        />
      </details>
    </>
  );
}
