" Highlighting of rangeline notes. The words come from grammar/vocabulary.tsv:
" what stands between two marks is written by build-aux/editors.awk.
scriptencoding utf-8

if exists('b:current_syntax')
  finish
endif
let s:cpo = &cpo
set cpo&vim

syn case ignore
syn iskeyword @,48-57,_,-,.,39,128-255

" A number, a range or neutral-zero; what begins like one and is none.
syn match rangelineError /\%([[:alnum:]_.'-]\)\@1<![-+–−‐‑—]\=\d\%([[:alnum:]._:+\/°º–−‐‑—-]\|,\d\)*/
syn match rangelineNumber /\%([[:alnum:]_.'-]\)\@1<!\d\+\%(\.\d\+\)\=\%([°º]\=\%([-–]\|\s\+[-–]\s\+\|\s\+to\s\+\)\d\+\%(\.\d\+\)\=\)\{,2}\%([°º]\|deg\|mm\|cm\)\=\%([[:alnum:]._:+\/°º–−‐‑—-]\|,\d\)\@!/
syn match rangelineNumber /\%([[:alnum:]_.'-]\)\@1<!\d\+\%(\.\d\+\)\=\%(\/\d\+\%(\.\d\+\)\=\)\{1,2}\%(deg\|mm\|cm\)\=\%([[:alnum:]._:+\/°º–−‐‑—-]\|,\d\)\@!/
syn match rangelineDate /\%([[:alnum:]_.'-]\)\@1<!\%(\d\{4}-\d\d-\d\d\|\d\d:\d\d\)\%([[:alnum:]._:+\/°º–−‐‑—-]\|,\d\)\@!/

" A later pattern comes before an earlier one.
" @words number outcome feel word mode side joint position motion setting
syn keyword rangelineNumber millimetres millimeters centimetres centimeters
syn keyword rangelineNumber millimetre millimeter centimetre centimeter
syn keyword rangelineNumber degrees degree degs deg T10 T11 T12 ° º mm cm C1
syn keyword rangelineNumber C2 C3 C4 C5 C6 C7 T6 T7 T8 T9 L1 L2 L3 L4 L5 S1
syn keyword rangelineOutcome not-tested WNL WFL NT
syn match rangelineOutcome /\<not\s\+tested\>/
syn match rangelineOutcome /\<within\s\+normal\s\+limits\>/
syn match rangelineOutcome /\<within\s\+functional\s\+limits\>/
syn keyword rangelineFeel tissue-approximation muscle-guarding tissue-stretch
syn keyword rangelineFeel springy-block bone-to-bone apprehension stiffness
syn keyword rangelineFeel tightness capsular guarding weakness swelling
syn keyword rangelineFeel stretch oedema empty spasm boggy edema soft firm
syn keyword rangelineFeel hard bony STA
syn match rangelineFeel /\<springy\>/
syn match rangelineFeel /\<bone\s\+to\s\+bone\>/
syn match rangelineFeel /\<springy\s\+block\>/
syn match rangelineFeel /\<tissue\s\+stretch\>/
syn match rangelineFeel /\<muscle\s\+guarding\>/
syn match rangelineFeel /\<tissue\s\+approximation\>/
syn keyword rangelineWord hyperextension substitutions inclinometer
syn keyword rangelineWord tape-measure substitution repetitions painful-arc
syn keyword rangelineWord unavailable goniometer repetition stopped-by
syn keyword rangelineWord ankylosed end-feel hyperext eyeball lacking maximum
syn keyword rangelineWord gonio ruler lacks hyper fixed after until incl rule
syn keyword rangelineWord lack less pain reps with from step none rep sub max
syn keyword rangelineWord at no
syn match rangelineWord /\<tape\>/
syn match rangelineWord /\<visual\>/
syn match rangelineWord /\<position\>/
syn match rangelineWord /\<end\s\+feel\>/
syn match rangelineWord /\<opposite\>/
syn match rangelineWord /\<stopped\s\+by\>/
syn match rangelineWord /\<painful\s\+arc\>/
syn match rangelineWord /\<tape\s\+measure\>/
syn match rangelineWord /\<visual\s\+estimate\>/
syn keyword rangelineMode active-assisted place-and-hold place-hold assisted
syn keyword rangelineMode passive AAROM AROM PROM AA PH A P
syn match rangelineMode /\<active\>/
syn match rangelineMode /\<place\s\+and\s\+hold\>/
syn match rangelineMode /\<active\s\+assisted\>/
syn keyword rangelineSide bilateral right bilat left both rt lt RA RP LA LP R
syn keyword rangelineSide L B
syn keyword rangelineJoint temporomandibular thoraco-lumbar gleno-humeral
syn keyword rangelineJoint glenohumeral tibiofemoral humeroulnar radio-ulnar
syn keyword rangelineJoint radiocarpal radioulnar talocrural second-toe
syn keyword rangelineJoint fourth-toe little-toe sub-talar great-toe third-toe
syn keyword rangelineJoint fifth-toe shoulder subtalar hindfoot TL-spine
syn keyword rangelineJoint mandible forearm c-spine t-spine l-spine tlspine
syn keyword rangelineJoint big-toe cspine tspine lspine pollex hallux elbow
syn keyword rangelineJoint wrist ankle thumb pinky spine shld foot neck CMCJ
syn keyword rangelineJoint MCPJ PIPJ DIPJ MTPJ toes GHJ elb hip ank STJ jaw
syn keyword rangelineJoint TMJ CMC MCP MPJ PIP DIP IPJ MTP sh GH fa wr hp kn
syn keyword rangelineJoint ft th D1 IF D2 MF D3 RF D4 SF D5 LF T1 T2 T3 T4 T5
syn keyword rangelineJoint MP IP
syn match rangelineJoint /\<hand\>/
syn match rangelineJoint /\<ring\>/
syn match rangelineJoint /\<long\>/
syn match rangelineJoint /\<knee\>/
syn match rangelineJoint /\<small\>/
syn match rangelineJoint /\<index\>/
syn match rangelineJoint /\<little\>/
syn match rangelineJoint /\<middle\>/
syn match rangelineJoint /\<lumbar\>/
syn match rangelineJoint /\<big\s\+toe\>/
syn match rangelineJoint /\<low\s\+back\>/
syn match rangelineJoint /\<thoracic\>/
syn match rangelineJoint /\<cervical\>/
syn match rangelineJoint /\<small\s\+toe\>/
syn match rangelineJoint /\<fifth\s\+toe\>/
syn match rangelineJoint /\<third\s\+toe\>/
syn match rangelineJoint /\<great\s\+toe\>/
syn match rangelineJoint /\<little\s\+toe\>/
syn match rangelineJoint /\<fourth\s\+toe\>/
syn match rangelineJoint /\<second\s\+toe\>/
syn match rangelineJoint /\<ring\s\+finger\>/
syn match rangelineJoint /\<long\s\+finger\>/
syn match rangelineJoint /\<small\s\+finger\>/
syn match rangelineJoint /\<index\s\+finger\>/
syn match rangelineJoint /\<lumbar\s\+spine\>/
syn match rangelineJoint /\<little\s\+finger\>/
syn match rangelineJoint /\<middle\s\+finger\>/
syn match rangelineJoint /\<thoracolumbar\>/
syn match rangelineJoint /\<thoracic\s\+spine\>/
syn match rangelineJoint /\<cervical\s\+spine\>/
syn match rangelineJoint /\<thoracolumbar\s\+spine\>/
syn keyword rangelinePosition non-weight-bearing gravity-eliminated
syn keyword rangelinePosition non-weightbearing nonweightbearing
syn keyword rangelinePosition weight-bearing weightbearing long-sitting
syn keyword rangelinePosition longsitting crook-lying side-lying hook-lying
syn keyword rangelinePosition sidelying hooklying standing kneeling sitting
syn keyword rangelinePosition longsit sidelie supine seated prone stand kneel
syn keyword rangelinePosition sit NWB SL HL WB GE
syn match rangelinePosition /\<hook\s\+lying\>/
syn match rangelinePosition /\<side\s\+lying\>/
syn match rangelinePosition /\<crook\s\+lying\>/
syn match rangelinePosition /\<long\s\+sitting\>/
syn match rangelinePosition /\<weight\s\+bearing\>/
syn match rangelinePosition /\<gravity\s\+eliminated\>/
syn match rangelinePosition /\<non\s\+weight\s\+bearing\>/
syn keyword rangelineMotion fingertip-to-floor hand-behind-back plantarflexion
syn keyword rangelineMotion laterotrusion tip-to-crease dorsiflexion
syn keyword rangelineMotion side-bending tip-to-table knee-to-wall plantarflex
syn keyword rangelineMotion sidebending supination protrusion opposition
syn keyword rangelineMotion extension abduction adduction pronation dorsiflex
syn keyword rangelineMotion inversion excursion scaption eversion rotation
syn keyword rangelineMotion kapandji flexion opening abduct adduct h-abd h-add
syn keyword rangelineMotion supin dorsi protr flex extn HABD HADD scap pron
syn keyword rangelineMotion PABD RABD ever open flx abd add pro sup inv rot
syn keyword rangelineMotion TTC TTT FTF KTW HBB IR MR ER LR RD UD DF PF ev SB
syn match rangelineMotion /\<ext\>/
syn match rangelineMotion /\<schober\>/
syn match rangelineMotion /\<lat\s\+exc\>/
syn match rangelineMotion /\<rad\s\+abd\>/
syn match rangelineMotion /\<uln\s\+dev\>/
syn match rangelineMotion /\<rad\s\+dev\>/
syn match rangelineMotion /\<ext\s\+rot\>/
syn match rangelineMotion /\<int\s\+rot\>/
syn match rangelineMotion /\<lat\s\+flex\>/
syn match rangelineMotion /\<palm\s\+abd\>/
syn match rangelineMotion /\<side\s\+bend\>/
syn match rangelineMotion /\<ulnar\s\+dev\>/
syn match rangelineMotion /\<horiz\s\+add\>/
syn match rangelineMotion /\<horiz\s\+abd\>/
syn match rangelineMotion /\<radial\s\+abd\>/
syn match rangelineMotion /\<palmar\s\+abd\>/
syn match rangelineMotion /\<radial\s\+dev\>/
syn match rangelineMotion /\<medial\s\+rot\>/
syn match rangelineMotion /\<lateral\s\+exc\>/
syn match rangelineMotion /\<lat\s\+flexion\>/
syn match rangelineMotion /\<lateral\s\+rot\>/
syn match rangelineMotion /\<schober\s\+test\>/
syn match rangelineMotion /\<knee\s\+to\s\+wall\>/
syn match rangelineMotion /\<tip\s\+to\s\+table\>/
syn match rangelineMotion /\<side\s\+flexion\>/
syn match rangelineMotion /\<side\s\+bending\>/
syn match rangelineMotion /\<ext\s\+rotation\>/
syn match rangelineMotion /\<external\s\+rot\>/
syn match rangelineMotion /\<int\s\+rotation\>/
syn match rangelineMotion /\<internal\s\+rot\>/
syn match rangelineMotion /\<tip\s\+to\s\+crease\>/
syn match rangelineMotion /\<mouth\s\+opening\>/
syn match rangelineMotion /\<horizontal\s\+add\>/
syn match rangelineMotion /\<horizontal\s\+abd\>/
syn match rangelineMotion /\<lateral\s\+bending\>/
syn match rangelineMotion /\<lateral\s\+flexion\>/
syn match rangelineMotion /\<plantar\s\+flexion\>/
syn match rangelineMotion /\<ulnar\s\+deviation\>/
syn match rangelineMotion /\<medial\s\+rotation\>/
syn match rangelineMotion /\<hand\s\+behind\s\+back\>/
syn match rangelineMotion /\<radial\s\+abduction\>/
syn match rangelineMotion /\<palmar\s\+abduction\>/
syn match rangelineMotion /\<radial\s\+deviation\>/
syn match rangelineMotion /\<lateral\s\+rotation\>/
syn match rangelineMotion /\<lateral\s\+excursion\>/
syn match rangelineMotion /\<external\s\+rotation\>/
syn match rangelineMotion /\<internal\s\+rotation\>/
syn match rangelineMotion /\<fingertip\s\+to\s\+floor\>/
syn match rangelineMotion /\<horizontal\s\+flexion\>/
syn match rangelineMotion /\<cross-body\s\+adduction\>/
syn match rangelineMotion /\<horizontal\s\+adduction\>/
syn match rangelineMotion /\<horizontal\s\+extension\>/
syn match rangelineMotion /\<horizontal\s\+abduction\>/
syn match rangelineMotion /\<plane\s\+of\s\+scapula\s\+elevation\>/
syn match rangelinePosition /\<\%(\%(abducted\|adducted\|extended\|elevated\|flexed\|flex\|abd\|add\|ext\)-\d\+\|\%(shoulder\|forearm\|fingers\|finger\|elbow\|wrist\|ankle\|trunk\|knee\|neck\|MCP\|PIP\|DIP\|hip\|MTP\|MP\|IP\)-\%(supinated\|straight\|extended\|pronated\|abducted\|adducted\|neutral\|flexed\|bent\)\%(-\d\+\)\=\)\>/
" @end

syn match rangelineBy /\<by\>/ skipwhite
      \ nextgroup=rangelineByDate,rangelineCode
syn match rangelineCode /[A-Za-z0-9][A-Za-z0-9._-]*/ contained
syn match rangelineByDate /\d\{4}-\d\d-\d\d\>/ contained
syn match rangelineSex /\<\%(F\|M\|X\|female\|male\)\>/ contained

" A header is the first word of its line; behind it nothing is one.
" @words header
syn match rangelineHeader /^\s*\%(precautions\|precaution\|instrument\|dominance\|dominant\|involved\|opposite\|position\|requires\|session\|subject\|surgery\|remarks\|require\|remark\|goals\|rater\|born\|goal\|mode\|age\|sex\)\>/
" @end
syn match rangelineHeader /^\s*\%(subject\|rater\)\>/ skipwhite
      \ nextgroup=rangelineCode
syn match rangelineHeader /^\s*sex\>/ skipwhite nextgroup=rangelineSex

syn match rangelineText /"[^"]*"/ contains=@Spell
syn match rangelineError /"[^"]*$/
syn match rangelineComment /\%(^\|[ \t,]\)\@1<=#.*/
      \ contains=rangelineAccept,@Spell
syn match rangelineAccept /#\s*\zsaccept\%(\s\+[a-z-]\+\%(\s*,\s*[a-z-]\+\)*\)\=\ze\s*\%(:\|$\)/
      \ contained contains=@NoSpell

hi def link rangelineComment Comment
hi def link rangelineAccept SpecialComment
hi def link rangelineText String
hi def link rangelineHeader Statement
hi def link rangelineCode Identifier
hi def link rangelineDate Number
hi def link rangelineByDate rangelineDate
hi def link rangelineNumber Number
hi def link rangelineError Error
hi def link rangelineSide Special
hi def link rangelineMode Special
hi def link rangelineJoint Type
hi def link rangelineMotion Function
hi def link rangelinePosition StorageClass
hi def link rangelineFeel Constant
hi def link rangelineWord Keyword
hi def link rangelineBy rangelineWord
hi def link rangelineSex rangelineWord
hi def link rangelineOutcome Constant

let b:current_syntax = 'rangeline'
let &cpo = s:cpo
unlet s:cpo
