// Made from ../../pt-BR/page-weather.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWeatherParams } from '../params/page-weather.ts';

export const pageWeatherTexts: PageTexts<PageWeatherParams> = {
  "page-weather.title": "O ar de amanhã",
  "page-weather.lead": "Uma camada fina acompanha o ar. Com o ar de amanhã, a previsão dela fica muito mais próxima; sem ele, supõe-se que amanhã seja como hoje.",
  "page-weather.what": ["Branhearth pode consultar o serviço gratuito de ",["sourceText"],", no máximo uma vez por hora. Não pergunta por nenhum lugar se você não definir um aqui. Então vão para lá o lugar, arredondado a cerca de um quilômetro, e o contato abaixo. Veja os ",["<","terms","termos de uso"],"; os dados estão sob ",["<","licence","CC BY 4.0"],"."],
  "page-weather.contact": "Contato",
  "page-weather.contact.hint": "Um endereço de e-mail ou uma página sua: o serviço quer saber a quem escrever.",
  "page-weather.latitude": ["Latitude de ",["siteName"]],
  "page-weather.longitude": ["Longitude de ",["siteName"]],
  "page-weather.degrees.hint": "Em graus, como 47,38. Deixe os dois vazios e ninguém é consultado para este local.",
  "page-weather.save": "Salvar",
  "page-weather.saved": "Salvo.",
  "page-weather.not-a-number": "Precisa ser um número de graus.",
  "page-weather.heard": [["siteName"],": última resposta ",["heardAtMs"],"."],
  "page-weather.waiting": [["siteName"],": nenhuma resposta ainda."],
  "page-weather.problem": [["siteName"],": a última consulta não deu nada: ",["problemText"],". Ela é repetida automaticamente."],
  "page-weather.own": ["Programas seus informam o ar que vem por ",["<","mono","POST /api/sites/…/air-ahead"]," ou retido em ",["<","mono","…/air-ahead"],"."],
};
