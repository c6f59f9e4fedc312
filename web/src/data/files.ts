/** Files to and from the server, which are no JSON. */
import { problemSchema } from '../../../shared/contracts/problem.ts';
import { ApiProblem, NoAnswer, requestHeaders } from './client.ts';
import { wordProblem } from './word-problem.ts';

/** A file of the server, with the token it may want. */
export async function getFile(path: string): Promise<Blob> {
  return (await reach(path, { headers: requestHeaders() })).blob();
}

/** @throws {ApiProblem} where it is refused; {NoAnswer} where nobody answers. */
export async function reach(path: string, init: RequestInit): Promise<Response> {
  const response = await fetch(path, init).catch((cause: unknown) => {
    throw new NoAnswer('Branhearth does not answer. Is it running, and is this device on the same network?', { cause });
  });
  if (response.ok) return response;
  const problem = problemSchema.safeParse(await response.json().catch(() => undefined));
  const { status } = response;
  const detail = `The request was refused (HTTP ${status}) without a reason given`;
  throw new ApiProblem(
    problem.success ? await wordProblem(problem.data) : { type: 'about:blank', title: 'Refused', status, detail },
  );
}
