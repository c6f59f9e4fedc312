import { Section } from './section.tsx';

const questions = [
  'not-listed',
  'nothing',
  'old',
  'wrong-number',
  'wrong-entry',
  'units',
  'password',
  'phone',
  'data',
] as const;

export function Questions() {
  return (
    <>
      {questions.map((question) => (
        <Section key={question} of={`questions.${question}`} />
      ))}
    </>
  );
}
