"""What in a text leads to a person.

E-mail addresses, telephone numbers, vehicle identification numbers, number plates, street addresses, names: one module
a kind. Each gives the spans of a text in which it sees one.

The texts are full of numbers that lead to nobody: part numbers, torque figures, fault codes, frame-number ranges. So
each kind asks for a shape that these do not have, or for a word in front of the number. The labelled texts in
`tests/personal_data/` measure how well that works.
"""
