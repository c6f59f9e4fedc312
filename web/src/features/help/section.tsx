/** A part of a chapter, and the lines that its texts are. */
import type { ComponentChildren } from 'preact';
import type { Message } from '../../../../shared/messages/message.ts';
import { Part } from '../../ui/parts/part.tsx';
import { type HelpCode, linesOf, type SectionName, useHelp, useSayHelp } from './help-texts.tsx';
import './help.css';

interface SectionProps {
  readonly of: SectionName;
  /** Beside its lines. */
  readonly children?: ComponentChildren;
  /** What is to be read before anything else. */
  readonly first?: ComponentChildren;
}

export function Section({ of, children, first }: SectionProps) {
  const { text } = useHelp();
  return (
    <Part id={of.split('.').at(-1) ?? of} title={text(`page-help.${of}.title`)}>
      {first}
      <Lines of={of} />
      {children}
    </Part>
  );
}

/** Items that follow each other become one list. */
export function Lines({ of }: { readonly of: string }) {
  const { rich } = useHelp();
  const lines = linesOf(of);
  const isStart = (i: number) => i === 0 || lines[i - 1]?.kind !== lines[i]?.kind;
  return (
    <>
      {lines.map(({ code, kind }, i) => {
        if (kind === 'p') return <p key={code}>{rich(code)}</p>;
        if (!isStart(i)) return null;
        const rest = lines.slice(i);
        const end = rest.findIndex((line) => line.kind !== kind);
        const items = rest
          .slice(0, end === -1 ? rest.length : end)
          .map((line) => <li key={line.code}>{rich(line.code)}</li>);
        return kind === 'n' ? (
          <ol class="help-steps" key={code}>
            {items}
          </ol>
        ) : (
          <ul class="help-list" key={code}>
            {items}
          </ul>
        );
      })}
    </>
  );
}

/** Words and what each means. */
export function Terms({ of }: { readonly of: readonly (readonly [word: HelpCode, is: HelpCode])[] }) {
  const { text } = useHelp();
  return (
    <dl class="help-terms">
      {of.map(([word, is]) => (
        <div key={word}>
          <dt>{text(word)}</dt>
          <dd>{text(is)}</dd>
        </div>
      ))}
    </dl>
  );
}

/** A caution stands before what it is about. */
export function Caution({ children }: { readonly children: ComponentChildren }) {
  const { text } = useHelp();
  return (
    <p class="help-caution">
      <b>{text('page-help.caution')}.</b> {children}
    </p>
  );
}

/** The same caution as where the work is done. */
export function SaidCaution({ of }: { readonly of: Message }) {
  const say = useSayHelp();
  return <Caution>{say(of)}</Caution>;
}

/** Among others of its kind, where the heading says what they are. */
export function ListedCaution({ of }: { readonly of: Message }) {
  const say = useSayHelp();
  return <p class="help-caution">{say(of)}</p>;
}
