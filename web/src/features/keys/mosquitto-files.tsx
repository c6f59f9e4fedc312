/** The same keys for a Mosquitto of one's own, where that one decides. */
import { FileLink } from '../../ui/parts/file-link.tsx';
import './keys.css';

export function MosquittoFiles() {
  return (
    <>
      <p>
        Two files say the same to a Mosquitto of your own. Put them where its settings <code>password_file</code> and{' '}
        <code>acl_file</code> point, set <code>allow_anonymous false</code>, and let it read them again with{' '}
        <code>SIGHUP</code>. Fetch them anew after making or revoking a key. The first holds hashes of the passwords:
        keep it as you would keep a key.
      </p>
      <ul class="key-files">
        <li>
          <FileLink path="/api/keys/mosquitto/passwords" name="branhearth.passwd">
            Password file
          </FileLink>
        </li>
        <li>
          <FileLink path="/api/keys/mosquitto/topics" name="branhearth.acl">
            Access file
          </FileLink>
        </li>
      </ul>
    </>
  );
}
