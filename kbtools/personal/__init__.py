"""What in a text leads to a person.

One module a kind, each with `may_hold(text)`, a quick look that never says no where there is something, and
`find(text)`, which gives the spans of the text in which it sees one. All take time in proportion to the text.

The texts are full of numbers that lead to nobody: part numbers, torque figures, fault codes, frame-number ranges. So
each kind asks for a proof, for a shape that these do not have, or for a word beside it:

| kind        | what decides                                                                               | gives   |
|-------------|--------------------------------------------------------------------------------------------|---------|
| `email`     | the shape of RFC 5321; with the signs spelt out or spaced, a known last label              | error   |
| `phone`     | + or 00, a trunk 0 in groups, North American groups, a word beside it; `numbering`: a      | error   |
|             | plan of a named country. Against it: a word for another number in front, a unit behind, a  |         |
|             | date, an even row                                                                          |         |
| `messenger` | a host or a scheme that leads to one person, and something behind it                       | error   |
| `vin`       | seventeen signs, in one piece or in groups: the check digit, or the standard's parts       | error   |
| `iban`      | the country's length and form, and the remainder 1 modulo 97                               | error   |
| `card`      | a network's first digits and length, and the check digit of Luhn                           | error   |
| `position`  | two angles on the earth, exact to some hundred metres; a code of a place                   | error   |
| `plate`     | the shape of a country that hardly anything else has; any behind a word such as `plate`,   | warning |
|             | or beside words of a machine that somebody saw; `plate_shapes`                             |         |
| `address`   | a word for a street with a name and a number, a post code with a town; `address_words`     | warning |
| `name`      | capitalised words behind `thanks to`, `by`, `Owner:`, `Mr`, below a letter; one of         | warning |
|             | `given_names` with another word, or with a deed; `name_words`                              |         |
| `handle`    | `@name`, `username: name`, a made-up word on a forum, a member's page; `handle_words`      | warning |

The labelled texts in `tests/personal_data/` measure how well that works: `python -m tests.personal.measure`.
"""
