/** The file for a board, to take along, to copy and, where it is short enough, to scan. */
import { useEffect, useState } from 'preact/hooks';
import type { ProbeSettings } from '../../../../ingest/probes/fill-in.ts';
import { type QrPath, qrPath } from '../../../../shared/qr-path.ts';
import { CopyText } from '../../ui/parts/copy-text.tsx';
import { QrCode } from '../../ui/parts/qr-code.tsx';
import { useKeyWords } from '../keys/use-key-words.ts';
import { type Firmware, filledFile } from './board-files.ts';
import { useHelp } from './help-texts.tsx';
import '../keys/keys.css';

/** What a phone still reads off a screen; our own choice, no source. */
const mostCodeBytes = 400;

interface BoardFileViewProps {
  readonly firmware: Firmware;
  readonly settings: ProbeSettings;
}

export function BoardFileView({ firmware, settings }: BoardFileViewProps) {
  const { text } = useHelp();
  const keyWords = useKeyWords();
  const { name, text: contents } = filledFile(firmware, settings);
  const code = useCode(contents);
  return (
    <div class="made-key">
      <p>{keyWords.text('page-keys.new.password')}</p>
      <p>
        <a class="button" download={name} href={`data:text/plain;charset=utf-8,${encodeURIComponent(`${contents}\n`)}`}>
          {text('page-help.probe.form.take', { fileText: name })}
        </a>
      </p>
      <details class="more" open={contents.length <= mostCodeBytes}>
        <summary>{text('page-help.probe.form.see')}</summary>
        <CopyText label={text('page-help.probe.form.copy')} text={contents} />
      </details>
      {code && <QrCode code={code} label={text('page-help.probe.form.code')} />}
    </div>
  );
}

function useCode(contents: string): QrPath | undefined {
  const [code, setCode] = useState<QrPath>();
  useEffect(() => {
    let isLate = false;
    setCode(undefined);
    if (contents.length <= mostCodeBytes) void qrPath(contents).then((made) => !isLate && setCode(made));
    return () => {
      isLate = true;
    };
  }, [contents]);
  return code;
}
