"""What went wrong: evidence of a bake weighed into shares of causes, with reasons.

Each cause starts at its prior and is moved by what is known, in log-odds that stand in knowledge/diagnosis:

* a symptom moves every cause of the table (strong +1.6, usual +0.9, possible +0.3, against -1.2; a cause the table does
  not list under it -1.6), times the symptom's `overlap`, so that a symptom never lowers the share of the cause it is
  most typical of;
* a cause known by its own facts that accounts for one symptom need not account for the others, for a bake can have two
  things wrong with it: what is seldom its doing then speaks no more against it; and a symptom of a stage it brings
  about (dough warm, then over-fermented, then pale) speaks for it nearly as much as for the stage, unless facts show
  the stage itself;
* a symptom denied ("not sour") takes away 0.7 of what it would have brought;
* figures and findings move causes by their bands. Those of one family say much the same: the strongest of a family, for
  each cause and in each direction, counts in full, the others by half;
* causes with one root share: what facts say for a stage (over-proofed) counts in part for its root (dough warm), and
  the other way round, unless a fact speaks against the sharer; a root that is known by its own facts takes most, and
  so is named first.

Shares are the softmax of the sums. Nothing depends on the order of the evidence. The weights are our own estimate,
tuned on the cases of tests/engine/diagnosis_tuned.yaml.

`evidence.py` holds what is known and the tables; `weights.py` moves one cause by it, `blame.py` shares the blame out;
`figures.py` turns what was said (`bake.py`) into figures that weigh, by hours (`rises.py`), flour and water, and heat;
`questions.py` picks what to ask next.
"""
