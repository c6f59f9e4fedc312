/** The same keys for a Mosquitto of one's own, where that one decides. */
import { FileLink } from '../../ui/parts/file-link.tsx';
import './keys.css';
import { useKeyWords } from './use-key-words.ts';

export function MosquittoFiles() {
  const { text, rich } = useKeyWords();
  return (
    <>
      <p>{rich('page-keys.mosquitto.how', { mono: (inner) => <code>{inner}</code> })}</p>
      <ul class="key-files">
        <li>
          <FileLink path="/api/keys/mosquitto/passwords" name="branhearth.passwd">
            {text('page-keys.mosquitto.passwords')}
          </FileLink>
        </li>
        <li>
          <FileLink path="/api/keys/mosquitto/topics" name="branhearth.acl">
            {text('page-keys.mosquitto.access')}
          </FileLink>
        </li>
      </ul>
    </>
  );
}
