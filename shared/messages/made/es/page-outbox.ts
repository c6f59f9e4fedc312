// Made from ../../es/page-outbox.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOutboxParams } from '../params/page-outbox.ts';

export const pageOutboxTexts: PageTexts<PageOutboxParams> = {
  "page-outbox.own": [["entryCount",{"one":[["#"]," anotación espera"],"other":[["#"]," anotaciones esperan"]},1]," en este dispositivo. ",["<","send","Enviar ya"]],
  "page-outbox.of": [["entryCount",{"one":[["#"]," anotación de ",["personName"]," espera"],"other":[["#"]," anotaciones de ",["personName"]," esperan"]},1]," en este dispositivo hasta que ",["personName"]," entre aquí."],
  "page-outbox.nobodys": [["entryCount",{"one":[["#"]," anotación escrita aquí mientras nadie había entrado espera a que alguien diga de quién es."],"other":[["#"]," anotaciones escritas aquí mientras nadie había entrado esperan a que alguien diga de quién son."]},1]],
  "page-outbox.see": [["entryCount",{"one":"Verla","other":"Verlas"},1]],
  "page-outbox.refused": [["entryCount",{"one":[["#"]," anotación no se aceptó"],"other":[["#"]," anotaciones no se aceptaron"]},1]],
};
