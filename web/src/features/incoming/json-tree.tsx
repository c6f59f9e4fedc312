/** A message's JSON, each number in it a button that picks it. */
import { pointerOf } from './json-pointer.ts';
import './incoming.css';
import { useIncomingWords } from './use-incoming-words.ts';

interface JsonTreeProps {
  readonly value: unknown;
  readonly picked: string;
  readonly onPick: (pointer: string) => void;
  readonly path?: readonly (string | number)[];
}

export function JsonTree({ value, picked, onPick, path = [] }: JsonTreeProps) {
  if (Array.isArray(value)) {
    return (
      <ol class="json" start={0}>
        {value.map((item, i) => (
          <li key={pointerOf([...path, i])}>
            <span class="json-key">{i}</span>{' '}
            <JsonTree value={item} picked={picked} onPick={onPick} path={[...path, i]} />
          </li>
        ))}
      </ol>
    );
  }
  if (typeof value === 'object' && value !== null) {
    return (
      <ul class="json">
        {Object.entries(value).map(([key, item]) => (
          <li key={key}>
            <span class="json-key">{key}</span>{' '}
            <JsonTree value={item} picked={picked} onPick={onPick} path={[...path, key]} />
          </li>
        ))}
      </ul>
    );
  }
  return <Leaf value={value} picked={picked} onPick={onPick} pointer={pointerOf(path)} />;
}

interface LeafProps extends Omit<JsonTreeProps, 'path'> {
  readonly pointer: string;
}

function Leaf({ value, picked, onPick, pointer }: LeafProps) {
  const { text } = useIncomingWords();
  const valueText = JSON.stringify(value);
  const canBeRead =
    typeof value === 'number' || (typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value)));
  if (!canBeRead) return <span class="json-other">{valueText}</span>;
  return (
    <button
      type="button"
      class="json-value"
      aria-pressed={pointer === picked}
      aria-label={text('page-incoming.heard.take', { valueText, isWhole: pointer === '', pointerText: pointer })}
      onClick={() => onPick(pointer)}
    >
      {valueText}
    </button>
  );
}
