" Vim syntax for norma protocols. The lists between the marker lines are made from the table of
" words (UPDATE_GENERATED=1 structure_tests); all else is written by hand.
if exists('b:current_syntax')
  finish
endif

syntax case match
syntax iskeyword @,48-57,_

" Later items win where two match at the same place: a date over a ratio over a number, the words
" of a statement over clause words, a longer name over a shorter one.
" clauses: begin
syntax match normaClause /\<JPEG\>/
syntax match normaClause /\<a\>/
syntax match normaClause /\<above\>/
syntax match normaClause /\<accept\>/
syntax match normaClause /\<adopted\>/
syntax match normaClause /\<adults\>/
syntax match normaClause /\<after\>/
syntax match normaClause /\<again\>/
syntax match normaClause /\<ahead\>/
syntax match normaClause /\<air\>/
syntax match normaClause /\<allowed\>/
syntax match normaClause /\<and\>/
syntax match normaClause /\<apart\>/
syntax match normaClause /\<aperture\>/
syntax match normaClause /\<are\>/
syntax match normaClause /\<as\>/
syntax match normaClause /\<assistant\>/
syntax match normaClause /\<at\>/
syntax match normaClause /\<away\>/
syntax match normaClause /\<back\>/
syntax match normaClause /\<background\>/
syntax match normaClause /\<balance\>/
syntax match normaClause /\<be\>/
syntax match normaClause /\<because\>/
syntax match normaClause /\<before\>/
syntax match normaClause /\<behind\>/
syntax match normaClause /\<below\>/
syntax match normaClause /\<beside\>/
syntax match normaClause /\<between\>/
syntax match normaClause /\<bite\>/
syntax match normaClause /\<biting\>/
syntax match normaClause /\<black\>/
syntax match normaClause /\<blue\>/
syntax match normaClause /\<blur\>/
syntax match normaClause /\<bottom\>/
syntax match normaClause /\<bubbles\>/
syntax match normaClause /\<builds\>/
syntax match normaClause /\<built\>/
syntax match normaClause /\<by\>/
syntax match normaClause /\<camera\>/
syntax match normaClause /\<card\>/
syntax match normaClause /\<caution\>/
syntax match normaClause /\<centre\>/
syntax match normaClause /\<centric\>/
syntax match normaClause /\<cervical\>/
syntax match normaClause /\<chair\>/
syntax match normaClause /\<change\>/
syntax match normaClause /\<cheek\>/
syntax match normaClause /\<cheeks\>/
syntax match normaClause /\<children\>/
syntax match normaClause /\<chin\>/
syntax match normaClause /\<choice\>/
syntax match normaClause /\<clear\>/
syntax match normaClause /\<clip\>/
syntax match normaClause /\<closed\>/
syntax match normaClause /\<code\>/
syntax match normaClause /\<consent\>/
syntax match normaClause /\<contrast\>/
syntax match normaClause /\<crops\>/
syntax match normaClause /\<daylight\>/
syntax match normaClause /\<denture\>/
syntax match normaClause /\<dentures\>/
syntax match normaClause /\<directly\>/
syntax match normaClause /\<disc\>/
syntax match normaClause /\<distance\>/
syntax match normaClause /\<down\>/
syntax match normaClause /\<drop\>/
syntax match normaClause /\<dry\>/
syntax match normaClause /\<drying\>/
syntax match normaClause /\<ears\>/
syntax match normaClause /\<edge\>/
syntax match normaClause /\<edges\>/
syntax match normaClause /\<else\>/
syntax match normaClause /\<end\>/
syntax match normaClause /\<even\>/
syntax match normaClause /\<every\>/
syntax match normaClause /\<exposure\>/
syntax match normaClause /\<eye\>/
syntax match normaClause /\<face\>/
syntax match normaClause /\<field\>/
syntax match normaClause /\<file\>/
syntax match normaClause /\<fingers\>/
syntax match normaClause /\<firm\>/
syntax match normaClause /\<first\>/
syntax match normaClause /\<fixed\>/
syntax match normaClause /\<flash\>/
syntax match normaClause /\<focus\>/
syntax match normaClause /\<for\>/
syntax match normaClause /\<format\>/
syntax match normaClause /\<frame\>/
syntax match normaClause /\<from\>/
syntax match normaClause /\<front\>/
syntax match normaClause /\<frosted\>/
syntax match normaClause /\<glare\>/
syntax match normaClause /\<grey\>/
syntax match normaClause /\<guide\>/
syntax match normaClause /\<gum\>/
syntax match normaClause /\<hair\>/
syntax match normaClause /\<hand\>/
syntax match normaClause /\<head\>/
syntax match normaClause /\<held\>/
syntax match normaClause /\<high\>/
syntax match normaClause /\<holding\>/
syntax match normaClause /\<if\>/
syntax match normaClause /\<in\>/
syntax match normaClause /\<insert\>/
syntax match normaClause /\<inserting\>/
syntax match normaClause /\<insurance\>/
syntax match normaClause /\<into\>/
syntax match normaClause /\<is\>/
syntax match normaClause /\<iso\>/
syntax match normaClause /\<it\>/
syntax match normaClause /\<its\>/
syntax match normaClause /\<jaw\>/
syntax match normaClause /\<jewellery\>/
syntax match normaClause /\<keep\>/
syntax match normaClause /\<kept\>/
syntax match normaClause /\<laid\>/
syntax match normaClause /\<lamp\>/
syntax match normaClause /\<large\>/
syntax match normaClause /\<last\>/
syntax match normaClause /\<least\>/
syntax match normaClause /\<lens\>/
syntax match normaClause /\<less\>/
syntax match normaClause /\<level\>/
syntax match normaClause /\<light\>/
syntax match normaClause /\<limit\>/
syntax match normaClause /\<lips\>/
syntax match normaClause /\<little\>/
syntax match normaClause /\<marked\>/
syntax match normaClause /\<match\>/
syntax match normaClause /\<may\>/
syntax match normaClause /\<metal\>/
syntax match normaClause /\<middle\>/
syntax match normaClause /\<midline\>/
syntax match normaClause /\<milk\>/
syntax match normaClause /\<mirror\>/
syntax match normaClause /\<mirrored\>/
syntax match normaClause /\<missing\>/
syntax match normaClause /\<mixed\>/
syntax match normaClause /\<modelling\>/
syntax match normaClause /\<more\>/
syntax match normaClause /\<most\>/
syntax match normaClause /\<mouth\>/
syntax match normaClause /\<must\>/
syntax match normaClause /\<name\>/
syntax match normaClause /\<named\>/
syntax match normaClause /\<names\>/
syntax match normaClause /\<natural\>/
syntax match normaClause /\<nearer\>/
syntax match normaClause /\<needs\>/
syntax match normaClause /\<neighbouring\>/
syntax match normaClause /\<next\>/
syntax match normaClause /\<no\>/
syntax match normaClause /\<none\>/
syntax match normaClause /\<norma\>/
syntax match normaClause /\<nose\>/
syntax match normaClause /\<not\>/
syntax match normaClause /\<noted\>/
syntax match normaClause /\<number\>/
syntax match normaClause /\<of\>/
syntax match normaClause /\<off\>/
syntax match normaClause /\<on\>/
syntax match normaClause /\<one\>/
syntax match normaClause /\<open\>/
syntax match normaClause /\<opened\>/
syntax match normaClause /\<operator\>/
syntax match normaClause /\<opposing\>/
syntax match normaClause /\<optional\>/
syntax match normaClause /\<or\>/
syntax match normaClause /\<originals\>/
syntax match normaClause /\<other\>/
syntax match normaClause /\<others\>/
syntax match normaClause /\<out\>/
syntax match normaClause /\<outwards\>/
syntax match normaClause /\<over\>/
syntax match normaClause /\<paddle\>/
syntax match normaClause /\<part\>/
syntax match normaClause /\<parts\>/
syntax match normaClause /\<patient\>/
syntax match normaClause /\<photographed\>/
syntax match normaClause /\<picture\>/
syntax match normaClause /\<place\>/
syntax match normaClause /\<plain\>/
syntax match normaClause /\<plane\>/
syntax match normaClause /\<plastic\>/
syntax match normaClause /\<point\>/
syntax match normaClause /\<polished\>/
syntax match normaClause /\<position\>/
syntax match normaClause /\<possible\>/
syntax match normaClause /\<protocol\>/
syntax match normaClause /\<publication\>/
syntax match normaClause /\<ratio\>/
syntax match normaClause /\<raw\>/
syntax match normaClause /\<reason\>/
syntax match normaClause /\<record\>/
syntax match normaClause /\<referral\>/
syntax match normaClause /\<relation\>/
syntax match normaClause /\<relaxed\>/
syntax match normaClause /\<resting\>/
syntax match normaClause /\<rests\>/
syntax match normaClause /\<retractor\>/
syntax match normaClause /\<retractors\>/
syntax match normaClause /\<review\>/
syntax match normaClause /\<revision\>/
syntax match normaClause /\<ridge\>/
syntax match normaClause /\<ring\>/
syntax match normaClause /\<row\>/
syntax match normaClause /\<rule\>/
syntax match normaClause /\<ruler\>/
syntax match normaClause /\<saliva\>/
syntax match normaClause /\<same\>/
syntax match normaClause /\<say\>/
syntax match normaClause /\<second\>/
syntax match normaClause /\<seen\>/
syntax match normaClause /\<sensor\>/
syntax match normaClause /\<series\>/
syntax match normaClause /\<set\>/
syntax match normaClause /\<settings\>/
syntax match normaClause /\<shade\>/
syntax match normaClause /\<sharp\>/
syntax match normaClause /\<show\>/
syntax match normaClause /\<shutter\>/
syntax match normaClause /\<side\>/
syntax match normaClause /\<site\>/
syntax match normaClause /\<small\>/
syntax match normaClause /\<smiling\>/
syntax match normaClause /\<stays\>/
syntax match normaClause /\<step\>/
syntax match normaClause /\<stop\>/
syntax match normaClause /\<straight\>/
syntax match normaClause /\<suction\>/
syntax match normaClause /\<tab\>/
syntax match normaClause /\<take\>/
syntax match normaClause /\<taken\>/
syntax match normaClause /\<takes\>/
syntax match normaClause /\<taking\>/
syntax match normaClause /\<teaching\>/
syntax match normaClause /\<teeth\>/
syntax match normaClause /\<tension\>/
syntax match normaClause /\<that\>/
syntax match normaClause /\<the\>/
syntax match normaClause /\<there\>/
syntax match normaClause /\<thing\>/
syntax match normaClause /\<third\>/
syntax match normaClause /\<time\>/
syntax match normaClause /\<times\>/
syntax match normaClause /\<tipped\>/
syntax match normaClause /\<to\>/
syntax match normaClause /\<together\>/
syntax match normaClause /\<tolerance\>/
syntax match normaClause /\<tongue\>/
syntax match normaClause /\<tooth\>/
syntax match normaClause /\<top\>/
syntax match normaClause /\<towards\>/
syntax match normaClause /\<turned\>/
syntax match normaClause /\<twin\>/
syntax match normaClause /\<unaltered\>/
syntax match normaClause /\<under\>/
syntax match normaClause /\<until\>/
syntax match normaClause /\<up\>/
syntax match normaClause /\<upright\>/
syntax match normaClause /\<upside\>/
syntax match normaClause /\<usual\>/
syntax match normaClause /\<view\>/
syntax match normaClause /\<visit\>/
syntax match normaClause /\<wait\>/
syntax match normaClause /\<warmed\>/
syntax match normaClause /\<way\>/
syntax match normaClause /\<wetted\>/
syntax match normaClause /\<when\>/
syntax match normaClause /\<whichever\>/
syntax match normaClause /\<white\>/
syntax match normaClause /\<whole\>/
syntax match normaClause /\<wide\>/
syntax match normaClause /\<with\>/
syntax match normaClause /\<without\>/
syntax match normaClause /\<words\>/
syntax match normaClause /\<write\>/
syntax match normaClause /\<x\>/
" clauses: end

" A line that ends in a comma goes on: nothing starts a statement before the next word.
syntax match normaGoesOn /,\s*\%(#.*\)\=\n\%(\s*\%(#.*\)\=\n\)*\s*/ contains=normaComment

" `also` and `no` stand before the word of a statement.
syntax match normaChange /\%(^\|{\)\@<=\s*\zs\%(also\|no\)\>/ nextgroup=normaChanged skipwhite
" changed words: begin
syntax match normaChanged /\%(take\s\+again\s\+at\s\+most\|teeth\s\+turned\s\+away\|every\s\+mouth\s\+view\|others\s\+must\s\+keep\|may\s\+show\s\+in\s\+part\|contrast\s\+paddle\|every\s\+face\s\+view\|if\s\+not\s\+possible\|take\s\+out\s\+first\|after\s\+picture\|change\s\+series\|white\s\+balance\|must\s\+be\s\+sharp\|must\s\+not\s\+show\|take\s\+again\s\+if\|photographed\|allowed\s\+blur\|or\s\+else\s\+show\|or\s\+else\s\+view\|camera\s\+held\|change\s\+view\|consent\s\+for\|file\s\+format\|insert\s\+with\|background\|file\s\+names\|assistant\|originals\|retractor\|tolerance\|builds\s\+on\|centre\s\+on\|drop\s\+view\|face\s\+view\|grey\s\+card\|must\s\+show\|review\s\+by\|shade\s\+tab\|aperture\|dentures\|distance\|exposure\|operator\|protocol\|revision\|focus\s\+on\|adopted\|caution\|missing\|picture\|shutter\|suction\|stop\s\+if\|accept\|camera\|mirror\|sensor\|series\|tongue\|crops\|frame\|guide\|mouth\|norma\|ratio\|ruler\|taken\|teeth\|tooth\|code\|head\|lamp\|lips\|same\|site\|step\|view\|air\|for\|iso\|say\)\>/ contained
" changed words: end

" A statement starts a line, or follows an opening brace.
" words: begin
syntax match normaWord /\%(^\|{\)\@<=\s*\zsaccept\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsadopted\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsair\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsaperture\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsassistant\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsbackground\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zscamera\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zscaution\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zscode\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zscrops\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsdentures\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsdistance\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsexposure\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsfor\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsframe\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsguide\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zshead\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsiso\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zslamp\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zslips\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsmirror\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsmissing\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsmouth\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsnorma\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsoperator\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsoriginals\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsphotographed\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zspicture\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsprotocol\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsratio\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsretractor\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsrevision\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsruler\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zssame\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zssay\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zssensor\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsseries\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsshutter\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zssite\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsstep\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zssuction\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zstaken\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsteeth\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zstolerance\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zstongue\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zstooth\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsview\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsafter\s\+picture\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsallowed\s\+blur\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsbuilds\s\+on\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zscamera\s\+held\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zscentre\s\+on\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zschange\s\+series\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zschange\s\+view\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsconsent\s\+for\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zscontrast\s\+paddle\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsdrop\s\+view\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsface\s\+view\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsfile\s\+format\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsfile\s\+names\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsfocus\s\+on\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsgrey\s\+card\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsinsert\s\+with\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsmust\s\+show\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsreview\s\+by\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsshade\s\+tab\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsstop\s\+if\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zswhite\s\+balance\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsevery\s\+face\s\+view\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsevery\s\+mouth\s\+view\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsif\s\+not\s\+possible\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsmust\s\+be\s\+sharp\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsmust\s\+not\s\+show\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsor\s\+else\s\+show\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsor\s\+else\s\+view\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsothers\s\+must\s\+keep\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zstake\s\+again\s\+if\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zstake\s\+out\s\+first\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsteeth\s\+turned\s\+away\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zsmay\s\+show\s\+in\s\+part\>/
syntax match normaWord /\%(^\|{\)\@<=\s*\zstake\s\+again\s\+at\s\+most\>/
" words: end

syntax match normaSide /\<\%(left\|right\|upper\|lower\|both\)\>/
" Names of protocols, views and series, and what a series lists.
syntax match normaName /\%(\<\%(view\|series\|protocol\|same\s\+as\|builds\s\+on\)\s\+\)\@<=[a-z_][a-z0-9_]*/
syntax region normaNames start=/=/ end=/\%([a-z0-9_]\s*\)\@<=\%(#\@=\|}\@=\|$\)/ contains=normaListed,normaOptional,normaComment transparent
syntax match normaListed /\<[a-z_][a-z0-9_]*/ contained
syntax match normaOptional /\<optional\>/ contained

syntax keyword normaSurface facial buccal labial occlusal incisal lingual palatal
syntax match normaCode /\<[EI]V\d\d\>/
syntax match normaNumber /[+-]\?\<\d\+\%(\/\d\+\|\.\d\+\)\?\>/
" units: begin
syntax match normaMeasure /[+-]\?\<\d\+\%(\/\d\+\|\.\d\+\)\?\s*\%(\%(mm\|cm\|m\|um\|deg\|stop\|stops\|s\|ms\|min\|lx\|K\)\>\|%\)/
" units: end
syntax match normaRatio /\<\d\+\%(\.\d\+\)\?:\d\+\%(\.\d\+\)\?\>/
syntax match normaAperture /\<f\/\d\+\%(\.\d\+\)\?\>/
syntax match normaDate /\<\d\{4}-\d\d-\d\d\>/
syntax region normaText start=/"/ skip=/\\./ end=/"/ oneline contains=normaEscape
syntax match normaEscape /\\["\\]/ contained
syntax match normaWrong /\<\d\+,\d\+\>/
syntax match normaComment /#.*$/ contains=@Spell

highlight default link normaWord Statement
highlight default link normaClause Identifier
highlight default link normaChange Operator
highlight default link normaChanged Statement
highlight default link normaName Function
highlight default link normaListed Function
highlight default link normaOptional Identifier
highlight default link normaSurface Type
highlight default link normaSide Constant
highlight default link normaCode Special
highlight default link normaNumber Number
highlight default link normaMeasure Number
highlight default link normaRatio Number
highlight default link normaAperture Number
highlight default link normaDate Number
highlight default link normaText String
highlight default link normaEscape SpecialChar
highlight default link normaWrong Error
highlight default link normaComment Comment

let b:current_syntax = 'norma'
