"""What belongs to what: each question about a knowledge base, answered once.

| question | module |
|---|---|
| which entries are there, in which state | `entries` |
| what is seen of a base where some files are looked at by themselves | `narrowed` |
| whom does an entry concern | `scopes` |
| when was a model built, and a control unit fitted; which rows go beyond that | `built` |
| which cases are about a fault, and which count | `cases` |
| which years of a model list the same faults; what is reported most of a model | `alike` |
| which cases tell of one event, and which goes on with which | `events` |
| which faults does a code lead to; where do codes stand | `codes` |
| which faults may be behind codes at once; which causes are one | `together` |
| what does an access job need | `access` |
| who stands for an old id or a withdrawn entry | `heirs` |
| which pairs of faults are told apart | `apart` |
| who names what | `references` |
| which links lead outside, and where they stand | `links` |
| which checks point to a cause | `checks` |
| which components do entries name; where on the bike is what a check is about | `components` |
| which work is safety-critical | `safety` |
| which reviews are overdue | `reviews` |
| which pictures does somebody show | `pictures` |
| which words mean the same, which exclude each other | `words` |

All of them are pure functions of a `KnowledgeBase`; what is dear is kept for the base (`per_base`). For who asks much
of one base on one day, such as a page, `build` makes an `Index` of their answers (`answers`).
"""
