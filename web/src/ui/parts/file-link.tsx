/** A file of the server to be kept; where a token is wanted it is fetched with it first. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { reasonOf } from '../../data/client.ts';
import { getFile } from '../../data/files.ts';
import { bearerToken } from '../../data/prefs.ts';

interface FileLinkProps {
  readonly path: string;
  readonly name: string;
  readonly children: ComponentChildren;
}

export function FileLink({ path, name, children }: FileLinkProps) {
  const [problem, setProblem] = useState<string>();
  const fetchIt = async () => {
    try {
      const address = URL.createObjectURL(await getFile(path));
      const link = document.createElement('a');
      link.href = address;
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
    } catch (error) {
      setProblem(reasonOf(error));
    }
  };
  return (
    <>
      <a
        href={path}
        download={name}
        onClick={(event) => {
          // A plain link cannot carry the token.
          if (bearerToken() === '') return;
          event.preventDefault();
          void fetchIt();
        }}
      >
        {children}
      </a>
      {problem && <span class="wrong">{problem}</span>}
    </>
  );
}
