"""Words of a case log that are nobody's name.

Persons are told from other words by what is left when these are taken away; a word missing
here can cost a false alarm, never a missed name. The list is of common words of the trade and the
language, without source, and holds none that is also a common given name or surname.
"""

_LANGUAGE = """
a about above absent across active additional adequate after again against ago alive all almost
alone along already also although always am an and another anterior any apart apr april are area
around as at attempt attempted audit aug august autumn available avoid away back bad be became
because been before began behind being below best better between beyond big blind both bottom
but by call came can cannot case cases caused central centre change changed changes chart check
checked city clear clearly clinic clinical close closed cm code coded column comment comments
common complete completed completely complex complicated confirmed consecutive consider
considered contact control copy could count county course current currently data date day days
dead dec december declined delay delayed demo despite details did died different difficult
direct directly district do does done down draft due during each early east eastern easy either
elective eleven else emergency end ended enough entered entire episode especially etc even event
events ever every example except expected export exported extra failed fair false far feb
february female few field file final finally find fine finished first fit five follow followed
following for form found four fr free french friday from full further gauge gave general given
go goes going gone good got grade great group had half has have having he help her here high
higher him his home hospital hour hours how however hr hrs if immediate immediately important in
incomplete index indication infirmary initial initially inside instead instructions into
invented is it item its jan january jul july jun june just keep kept key kg kind known large
last late later least left legend length less level light like likely limited list little live
local location log long longer looked lost lot low lower m made main major make male many mar
march max maximum may maybe mean measured medium method mg mid middle mild min minimum minor
mins minute minutes missing mixed ml mm moderate monday month months more most mostly much
multiple must my n na national nearly need needed needs negative never new next night nil nine
no non none nor normal north northern not note noted notes nothing nov november now number oct
october of off often ok old on once one only onto open option or original other others our out
outcome outside over overall own page part partial partially parts past pending per perhaps
period place placed placement plan planned pm point poor positive possible possibly post
posterior pre present presentation presenting previous primary prior private probable probably
problem problems procedure process proximal public put quality quarter queen quick quite range
rapid rapidly rate rather re ready reason reasons received recent recently record recorded ref
reference regional reported required rest result results return returned review reviewed right
routine row royal running said saint same sample satisfactory saturday saw score second
secondary section see seen sent sep sept september serial series set seven several severe
severity she sheet short should show shown side sign significant similar simple since single
site sites six size slight slightly slow small smooth so some soon source south southern spare
spring st stable staff stage standard start started state stated status stay still stop stopped
strong study sub subsequent success successful successfully such sudden suitable summary summer
sunday support sure system t table taken team template temporary ten than that the their them
then there therefore these they third this those though three through throughout thursday time
times title to today together told tolerated too took top total totals toward towards transfer
transferred true try tuesday turned twelve two type types unable uncertain under unit university
unknown unless unlikely unplanned unsuccessful until unusual up upon upper urgent use used using
usual usually value various version very via view visit waiting was way we wednesday week
weekday weekend weeks well went were western what when where whether which while who whole whose
why wide will winter with within without wk wks work would x y year years yes yet you yr yrs
"""

_TRADE = """
abdomen abdominal abscess acute adenocarcinoma adenoma adherent adhesions adhesive adjuvant
administered admission admitted advanced age aged air albumin alert allergy anaemia anaesthesia
anaesthetic anaesthetist anal anastomosed anastomosis anastomotic angle angulated angulation
annular antibiotic antibiotics anticoagulant anus appendix apple applicable approach arm arrest
arrhythmia asa ascend ascending ascites asked aspiration assistant attending aureus autopsy
awaited awaiting awake ballon balloon band barium basal benign beside bevacizumab biopsies
biopsy bladder bleed bleeding blocked blood bloody board body bowel bowels brain brand bridge
bridging caecal caecostomy caecum calibre cancer carcinoma cardiac care carers cecal cecum
charlson chemo chemotherapy chest chronic circumferential ckd class clavien clinician
closed-loop closure coagulation colectomy coli colitis collapse collection colon colonic
colonoscope colonoscopic colonoscopy colorectal colostomy comfort comorbidities comorbidity
competent completion complication complications computed conscious conservative constipated
constipation consultant contained contrast copd core cover covered crohn crohns crossed ct
curative cure cvd deceased decompress decompressed decompression defunctioning dehiscence
dementia deployed deployment depressed descend descending device devices diabetes diabetic
diagnosed diagnosis diameter diarrhoea died dietitian difficile dilatation dilated dilating
dilation dindo discharge discharged discharging discomfort disease dislodged dislodgement distal
distally distended distension diverticular diverticulitis doctor drain drainage drained drug
duct dukes duodenal duration dying dysplasia echo ecog efficacy elderly embolism embolus
endoluminal endoscope endoscopic endoscopist endoscopy enema enteral eventful exam examination
exophytic expanded expansion extent extracolonic extraluminal extrinsic extubated faecal faeces
failure family fellow fever fibrillation fibrosis firm fistula fistulating fixed flange flat
flatus flex flexible flexure fluid fluoroscopic fluoroscopically fluoroscopy foul fracture
fractured frail frailty free-air function fundholder gas gas-filled gastric gastro
gastroenterologist gastroenterology gastrografin gastrointestinal generation gi gp guide guided
guidewire gut haematoma haemorrhage haemorrhoids hard hartmann hartmanns hdu heart hemicolectomy
hepatectomy hepatic hernia hinchey histology hospice hypertension hypotension icu ileal
ileocaecal ileostomy ileum ileus imaging impacted impaction improving incompetent incontinence
infarction infection inflammation inflammatory ingrowth inoperable inpatient inserted insertion
insurance intensive intent intention intervention intraabdominal intraoperative intubated
intubation ischaemia ischaemic itu jaundice junior karnofsky kidney kinked lactate laparoscopic
laparoscopy laparotomy leak leakage leaking led lesion lesions lgi liver lives living locum
long-term loop loose lot lumen luminal lung lymph lymphoma maker malignancy malignant management
manufacturer margin mass mdt meeting megacolon melaena mesenteric metal metallic metastases
metastasis metastatic microperforation migrated migration model morbidity mortality mr mri
mucinous mucosa mucous multivisceral nasogastric nausea necrosis neoadjuvant neoplasm nhs
nitinol nodal node nodes nos nurse nursing obese obstructed obstructing obstruction obstructive
occluded occlusion oedema oesophageal oesophagus oncologist oncology ongoing op operated
operating operation operative operator operators option organ ostomy outpatient ovarian
overgrowth overlap oxygen pain painful palliation palliative palpable pancreas pancreatic
panproctocolectomy paralytic passage passed patency patent patient patients pelvic pelvis
perforated perforation performance performed peritoneal peritoneum peritonism peritonitis
persistent persisting pharmacist physician plan pneumonia pneumoperitoneum polyp polypectomy
polypoid polyps position postop postoperative pouch pregnancy preop preoperative procedures
proctitis proctocolectomy proctoscopy product profile prolapse prolonged prone prophylactic
prophylaxis prostate pt pts pulmonary pus pyrexia radiographer radiological radiologist
radiology radiotherapy readmission readmitted reattempt recorded recovered recovery rectal
rectosigmoid rectum recurrence recurrent refused registrar reintervention relapse relief
relieved removal removed renal reopened repeat repeated reposition repositioned resected
resection residential resolved respiratory restented restenting retained retroperitoneal
reversal reversed rigid role scan scope scopes screening sedated sedation sema semiannular sems
senior sepsis septic series serosal shock short-term shoulder sigmoid sigmoidectomy
sigmoidoscopy silent skin sludge smoker smoking soft spasm specialised specialist specialty
spinal spleen splenic splint stenosis stent stented stenting stents step stock stoma stomach
stool stools strangulated stricture strictured strictures stuck subacute subtotal supervised
supervisor supine supplier surgeon surgery surgical symptom symptomatic symptoms synchronous
syndrome tachycardia tear technical technically technician technique tender tenderness tense
terminal theatre therapeutic therapist therapy thrombosis through-the-scope tip tissue tnm
tolerate tortuous toxic trainee trainer training transverse treated treatment tts tube tubular
tumor tumour tumours ugi ulcer ulcerated ulcerating ultrasound uncovered uncrossed uneventful
unfit unspecified unwell ureteric urinary urine uterus vagina vaginal vascular vein ventilated
villous vitamin volvulus vomited vomiting wall ward watery well wire withdrawn worsening wound
xr xray
"""

_PEOPLE = """
air ambulance anaesthetics anyone audited auditor both brother car care client colleague
colleagues collected collector consented coroner ct daughter everyone father forename friend
geriatrician gp gynaecologist haematology helicopter husband initials interpreter kin maiden mdt
medical medicine medics microbiology mother name names nobody nok oncologist paramedic parent
parents partner person persons relative relatives rep self sister someone son subject surname
taxi tertiary urologist us warden wife
"""
_NUMERALS = "i ii iii iiia iiib iv iva ivb v vi vii viii ix"
_ORDINARY = frozenset(f"{_LANGUAGE} {_TRADE} {_PEOPLE} {_NUMERALS}".split())
_TECHNICAL_ENDS = (
    "itis", "oma", "tion", "sion", "osis", "asis", "ectomy", "ostomy", "otomy", "scopy",
    "aemia", "emia", "uria", "ous", "graphy", "ology", "able", "ible", "ated", "ness", "pathy",
    "plasty", "mab", "xaban", "parin", "farin", "pirin", "grel", "statin", "azole", "cillin",
    "mycin", "scopic", "logical", "metry", "ised", "ized", "ising", "izing", "ively",
)  # fmt: skip


def is_ordinary(word: str) -> bool:
    """Whether a lower-case word is nobody's name: of the lists, or technical by its ending."""
    bare = word.strip(".'-")
    if bare in _ORDINARY or not bare:
        return True
    if bare.endswith("'s") and bare[:-2] in _ORDINARY:
        return True
    if "-" in bare:
        return all(is_ordinary(part) for part in bare.split("-"))
    return len(bare) > 5 and bare.endswith(_TECHNICAL_ENDS)
