// Made from ../../pt-BR/page-outbox.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOutboxParams } from '../params/page-outbox.ts';

export const pageOutboxTexts: PageTexts<PageOutboxParams> = {
  "page-outbox.own": [["entryCount",{"one":[["#"]," anotação espera"],"other":[["#"]," anotações esperam"]},1]," neste aparelho. ",["<","send","Enviar agora"]],
  "page-outbox.of": [["entryCount",{"one":[["#"]," anotação de ",["personName"]," espera"],"other":[["#"]," anotações de ",["personName"]," esperam"]},1]," neste aparelho até ",["personName"]," entrar aqui."],
  "page-outbox.nobodys": [["entryCount",{"one":[["#"]," anotação escrita aqui enquanto ninguém tinha entrado espera que alguém diga de quem é."],"other":[["#"]," anotações escritas aqui enquanto ninguém tinha entrado esperam que alguém diga de quem são."]},1]],
  "page-outbox.see": [["entryCount",{"one":"Ver","other":"Ver todas"},1]],
  "page-outbox.refused": [["entryCount",{"one":[["#"]," anotação não foi aceita"],"other":[["#"]," anotações não foram aceitas"]},1]],
};
