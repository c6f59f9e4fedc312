/** A key just made: what to enter at the probe, shown this once. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { MadeKey } from '../../../../shared/contracts/keys.ts';
import { CopyText } from '../../ui/parts/copy-text.tsx';
import { QrCode } from '../../ui/parts/qr-code.tsx';
import './keys.css';
import { useKeyWords } from './use-key-words.ts';

const letIn = (inner: ComponentChildren) => <a href="/reach">{inner}</a>;

interface MadeKeyProps {
  readonly made: MadeKey;
  readonly onDone: () => void;
}

export function MadeKeyView({ made, onDone }: MadeKeyProps) {
  const { text, rich } = useKeyWords();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <div class="made-key">
      <h3 ref={heading} tabIndex={-1}>
        {text('page-keys.new.made', { keyName: made.name })}
      </h3>
      <p>{text('page-keys.new.password')}</p>
      {made.broker.onlyHere && <p class="caution">{rich('page-keys.new.let-in', { link: letIn })}</p>}
      {!made.broker.tls && !made.broker.onlyHere && <p class="caution">{text('page-keys.new.no-tls')}</p>}
      <h4>{text('page-keys.new.enter')}</h4>
      <CopyText
        label={text('page-keys.new.enter.copy')}
        text={made.lines.map(({ name, value }) => `${`${name}:`.padEnd(12)} ${value}`).join('\n')}
      />
      <h4>{text('page-keys.new.code')}</h4>
      <QrCode code={made.code} label={text('page-keys.new.code.alt')} />
      <h4>{text('page-keys.new.try')}</h4>
      <CopyText label={text('page-keys.new.try.copy')} text={made.example} />
      <p>
        <button type="button" class="primary" onClick={onDone}>
          {text('page-keys.new.done')}
        </button>
      </p>
    </div>
  );
}
