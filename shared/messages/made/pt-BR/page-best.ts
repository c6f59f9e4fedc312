// Made from ../../pt-BR/page-best.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageBestParams } from '../params/page-best.ts';

export const pageBestTexts: PageTexts<PageBestParams> = {
  "page-best.title": "Qual foi o melhor?",
  "page-best.title.year": ["Qual foi o melhor em ",["yearText"],"?"],
  "page-best.stage": ["Etapa",["stage",{"bran":" de farelo","soil":" de terra","other":""},0]],
  "page-best.best": [["<","link",[["batchName"]]],["isYear",{"true":[" foi o melhor de ",["yearText"]],"other":" foi o melhor"},0],": ",["judgedText"],"."],
  "page-best.alike": [["alikeCount",{"=1":"Mais um foi avaliado como","other":["Mais ",["#"]," tiveram a avaliação"]},1]," ",["verdict",{"good":"bom","usable":"aproveitável","poor":"fraco","lost":"perdido","other":""},0],".",["isMeasured",{"true":[" Este fica à frente ",["alikeCount",{"=1":"dele","other":"deles"},1]," pelo que foi medido: houve avisos em aberto por ",["alarmHours"],", e o centro esteve na faixa de boa temperatura em ",["comfortFrac"]," do tempo."],"other":""},0]],
  "page-best.different": "O que foi diferente nele",
  "page-best.groups": [["likeCount",{"=1":["O lote avaliado como ",["verdict",{"good":"bom","usable":"aproveitável","poor":"fraco","lost":"perdido","other":""},0]],"other":["Os ",["#"]," lotes com a avaliação ",["verdict",{"good":"bom","usable":"aproveitável","poor":"fraco","lost":"perdido","other":""},0]]},1]," ao lado ",["lowerCount",{"=1":["do avaliado como ",["lower",{"good":"bom","usable":"aproveitável","poor":"fraco","lost":"perdido","other":""},0]],"other":["dos ",["#"]," com a avaliação ",["lower",{"good":"bom","usable":"aproveitável","poor":"fraco","lost":"perdido","other":""},0]]},1],["isYear",{"true":", de todos os anos mostrados aqui","other":""},0],":"],
  "page-best.like": [["verdict",{"good":"os bons","usable":"os aproveitáveis","poor":"os fracos","lost":"os perdidos","other":""},0]],
  "page-best.own": [["batchName"],": ",["figureText"],"."],
  "page-best.none-lower": ["Nenhum foi avaliado como pior, então não há nada a pôr ao lado: ",["likeText"],"."],
  "page-best.rest": "As outras medidas",
  "page-best.nobody": [["batchCount",{"=1":"Ninguém avaliou este lote ainda","other":["Ninguém avaliou estes ",["#"]," lotes ainda"]},1],", então nenhum pode ser chamado de o melhor."],
  "page-best.unjudged": [["batchCount",{"=1":"Ninguém avaliou mais um lote, que não conta","other":["Ninguém avaliou mais ",["#"]," lotes, que não contam"]},1]," nem como bom nem como ruim."],
  "page-best.order": "A avaliação de uma pessoa vem primeiro; com a mesma avaliação, o lote com avisos em aberto por menos horas, depois o que ficou mais tempo na faixa de boa temperatura; ordem nossa.",
  "page-best.alike.names": [["alikeCount",{"=1":"O outro avaliado como","other":"Os outros com a avaliação"},1]," ",["verdict",{"good":"bom","usable":"aproveitável","poor":"fraco","lost":"perdido","other":""},0]],
  "page-best.unjudged.names": "Não avaliados",
  "page-best.apart": [["apartCount",{"=0":"nenhuma medida difere claramente.","=1":"uma medida difere claramente.","other":[["#"]," medidas diferem claramente."]},1]],
  "page-best.few": "pouco para dizer.",
  "page-best.whys": ["O que as pessoas disseram destes últimos: ",["whysText"],"."],
  "page-best.why": [["whyText"]," (",["saidCount"],")"],
  "page-best.why.own": "nas palavras da pessoa",
};
