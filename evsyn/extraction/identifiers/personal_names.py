"""Common given names and surnames that mean nothing else in a case log.

From memory, of British and Irish patients and of the world's commonest; names that are also a
word of the trade (Frank, Grant, Max, Ray, Brown, Green, Stone, Ward) are left out on purpose.
"""

_GIVEN = """
aaron abdul abdullah abigail adam adele adrian agnes ahmed aidan aileen aisha alan albert alec
alexander alexandra alfred ali alice alison allan amanda amelia amina amy andrea andrew angela
anita anna anne annette annie anthony antonio arthur audrey barbara barry beatrice benjamin
bernadette bernard beryl betty beverley brenda brendan brian bridget bronwen bruce caitlin
cameron carlos caroline catherine cecilia charlotte cheryl christina christine christopher ciara
claire clara clifford colin connor craig cynthia daniel daphne darren david deborah declan
deirdre denise dennis derek diana diane dominic donald donna dora doreen doris dorothy douglas
dylan edith edna edward edwin eileen elaine eleanor elizabeth ellen elsie emily emma eric
ethel eunice evelyn fatima ffion fiona florence frances francis freda frederick gareth gary
gavin gemma geoffrey george gerald geraldine gerard gillian giovanni gladys glenn glenys gloria
gordon graham gwen hannah harold harriet hassan hazel heather helen henry hilda howard hugh
hussein ian ibrahim irene isabel isabella ivan jacob jacqueline jake james jamie jane janet
janice jasmine jason javier jean jeffrey jennifer jeremy jessica jill joan joanna joanne john
jonathan jordan jose joseph josephine joshua joyce juan judith julia julian julie karen karl
kate katherine kathleen kathryn katie keith kelly kenneth kerry kevin kieran kimberley kirsty
laura lauren lawrence leah leonard leslie lewis liam linda lisa lorna lorraine louise lucy luigi
luke lydia lynn mabel malcolm marcus margaret maria marie marilyn marion marjorie martha martin
mary matthew maureen mavis megan mehmet michael michelle mildred mohamed mohammad mohammed moira
monica morag muhammad muriel nancy natalie natasha neil niamh nicholas nicola nigel noreen norma
norman olive oliver olivia omar oscar owen pamela patricia patrick paula pauline peter philip
phyllis priya rachel raymond rebecca rhys richard robert roberta roger ronald rory rosemary roy
russell ruth ryan sabrina sally samantha samuel sandra sanjay sarah scott sean sharon sheila
shirley simon siobhan sofia sophia sophie spencer stanley stella stephanie stephen steven
stewart stuart susan suzanne sylvia tamara terence teresa theresa thomas timothy tracey tracy
trevor ursula valerie vanessa vera verity veronica vincent violet virginia vivien walter wayne
wendy wilfred william winifred yasmin yusuf yvonne zainab zoe
"""
_FAMILY = """
adams ahmed akhtar allen anderson armstrong ashworth atkinson bailey barnes begum bennett
campbell carr chapman chowdhury clarke collins davidson davies davis dawson dixon docherty
doherty edwards elliott ellis evans fletcher foster fraser gallagher garcia gibson gonzalez
graham griffiths hamilton harris harrison hernandez holmes hopkins hughes hussain hussein
hutchinson iqbal jackson jenkins johnson johnston jones kaur kelly kennedy khan kowalski lewis
lloyd macdonald mackenzie mahmood marshall martinez mccarthy mcdonald mckenzie mitchell mohamed
morgan morris morrison mueller murphy murray nguyen novak o'brien o'connor o'neill o'sullivan
obrien oconnor oneill osullivan patel phillips powell pritchard ramirez reilly reynolds richards
richardson roberts robertson robinson rodriguez rogers russell ryan sanchez sanders schmidt shah
sharma sheikh simpson singh smith smyth stevens stewart sullivan sutherland taylor thomas
thompson thomson tomlinson walsh watkins watson watts wilkinson williams williamson wilson
wright
"""

GIVEN_NAMES = frozenset(_GIVEN.split())
SURNAMES = frozenset(_FAMILY.split())
