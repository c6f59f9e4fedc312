/** Files to and from the server, which are no JSON. */
import { problemSchema } from '../../../shared/contracts/problem.ts';
import { ApiProblem, NoAnswer, requestHeaders, unexplained } from './client.ts';
import { textNow } from './text-now.ts';
import { wordProblem } from './word-problem.ts';

/** A file of the server, with the token it may want. */
export async function getFile(path: string): Promise<Blob> {
  return (await reach(path, { headers: requestHeaders() })).blob();
}

/** @throws {ApiProblem} where it is refused; {NoAnswer} where nobody answers. */
export async function reach(path: string, init: RequestInit): Promise<Response> {
  const response = await fetch(path, init).catch((cause: unknown) => {
    throw new NoAnswer(textNow('page-words.no-answer'), { cause });
  });
  if (response.ok) return response;
  const problem = problemSchema.safeParse(await response.json().catch(() => undefined));
  throw new ApiProblem(problem.success ? await wordProblem(problem.data) : unexplained(response.status));
}
