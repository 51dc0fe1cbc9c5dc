"""Given names that mean nothing else, for telling a person behind `from` and `by` from a thing.

Common knowledge of the languages of Europe, no source; on purpose without those that are also words of the trade or of
a calendar (Mark, Bill, Jack, Rod, Allen, Otto, Jan, June).
"""

from __future__ import annotations

GIVEN_NAMES = frozenset(
    """
    Aaron Abigail Achim Adam Adele Adrian Adriana Agata Agnes Agnieszka Ahmed Aidan Aisha Alan Albert Alberto
    Alejandro Aleksander Alessandra Alessandro Alessia Alex Alexander Alexandra Alexandre Alexis Alfonso Alfred
    Alice Alicia Alina Alison Alistair Allison Amanda Amelia Amelie Amir Amy Ana Anders Andi Andrea Andreas Andrei
    Andrew Andrzej Andy Angela Angelo Angus Anita Anja Anke Ann Anna Anne Annabel Annette Annie Annika Ansgar
    Anthony Antje Antoine Anton Antonella Antonia Antonio Arne Arnold Arthur Arturo Astrid Audrey Aurelie Barbara
    Barry Bart Bastian Beata Beatrice Beatrix Beatriz Ben Benedikt Benjamin Benoit Bernard Bernd Bernhard Bert Berta
    Bettina Betty Bianca Birgit Bjarne Bjorn Björn Bobby Boris Brenda Brian Bridget Brigitte Britta Bruce Bruno
    Bryan Camille Carina Carl Carla Carlo Carlos Carmen Caroline Carolyn Carsten Caterina Catherine Cathy Cecilia
    Cedric Celine Charles Charlie Charlotte Chloe Chris Christa Christian Christiane Christina Christine Christoph
    Christophe Christopher Chiara Claire Clara Claudia Claudio Claus Clemens Colin Conor Connor Corinna Cornelia
    Craig Cristina Cynthia Dagmar Damian Dan Daniel Daniela Daniele Danielle Danny Darren Dave David Davide Deborah
    Denis Dennis Derek Detlef Diana Diane Diego Dieter Dietmar Dimitri Dirk Dmitri Dominik Dominique Donald Donna
    Dora Doris Dorothea Dorothy Doug Douglas Duncan Eberhard Eddie Edgar Edith Eduardo Edward Edwin Eileen Elaine
    Eleanor Elena Eleni Elias Elisa Elisabeth Elizabeth Elke Ella Ellen Elsa Emil Emilia Emilie Emily Emma Emmanuel
    Enrico Enrique Erica Erich Erik Erika Erwin Esther Eugen Eva Evelyn Ewa Fabian Fabio Fabrice Fatima Federica
    Federico Felicitas Felix Ferdinand Fernando Filip Filippo Fiona Florian Frances Francesca Francesco Francis
    Francisca Francisco Franco Franz Franziska Fred Freddy Frederic Frederick Frieda Friedrich Fritz Gabriel
    Gabriela Gabriele Gareth Gary Gavin Geoff Geoffrey Georg George Georgia Georgina Gerald Gerard Gerd Gerhard Gert
    Gertrud Giacomo Gianni Gilbert Gina Giorgio Giovanna Giovanni Gisela Giulia Giuseppe Gordon Graham Greg Gregor
    Gregory Greta Grzegorz Gudrun Guido Guillaume Gunnar Gunther Gustav Günter Günther Hanna Hannah Hannelore Hannes
    Hans Harald Hartmut Hector Heidi Heike Heiko Heiner Heinrich Heinz Helen Helena Helene Helga Helge Helmut
    Hendrik Henri Henrik Henry Herbert Hermann Hilda Hilde Holger Horst Howard Hubert Hugo Ian Ilona Ilse Ines Inga
    Inge Ingeborg Ingo Ingrid Irene Irina Isaac Isabel Isabella Isabelle Ivan Ivana Jacek Jacob Jacqueline Jacques
    Jakob James Jamie Jane Jean Jeanne Janet Janine Janina Jason Javier Jeanette Jeff Jeffrey Jennifer Jenny Jens
    Jeremy Jerome Jerry Jessica Jessie Jill Jim Jimmy Joachim Joan Joanna Joanne Joao João Jochen Joe Joel Johan
    Johann Johanna Johannes John Johnny Jonas Jonathan Jordi Jorge Jose José Josef Joseph Josephine Joshua Juan
    Juanita Judith Judy Julia Julian Juliana Julie Juliette Julius Jürgen Justin Justyna Jutta Kai Karen Karin Karl
    Karla Karsten Katarina Kate Katharina Katherine Kathleen Kathrin Kathy Katie Katja Katrin Katy Kazimierz Keith
    Ken Kenneth Kerstin Kevin Kirsten Klara Klaus Konrad Konstantin Krzysztof Kurt Kyle Lars Laura Lauren Laurence
    Laurent Leah Lena Leon Leonard Leonardo Leonie Leslie Lewis Liam Linda Lisa Lorenzo Lothar Louis Louise Luca
    Lucas Lucia Lucie Lucy Ludwig Luigi Luis Luisa Lukas Luke Lutz Lydia Maciej Magda Magdalena Malcolm Malgorzata
    Manfred Manuel Manuela Marc Marcel Marcello Marcin Marco Marcos Marcus Marek Margaret Margarete Margit Margot
    Maria Mariana Marianne Marie Mario Marion Marius Marjorie Marko Markus Marlene Marta Martha Martina Mary Massimo
    Mateo Mathias Mathieu Mathilde Mats Matteo Matthew Matthias Maureen Maurice Mauricio Maurizio Maximilian Maya
    Megan Mehmet Melanie Melissa Mia Michael Michaela Michal Michel Michele Michelle Miguel Mikael Mike Mikhail
    Milan Milena Mira Miriam Mohamed Mohammed Monica Monika Monique Moritz Muhammad Mustafa Nadia Nadine Nancy
    Natalia Natalie Natasha Nathalie Nathan Neil Niall Nicholas Nicola Nicolas Nicole Niels Nigel Nikolai Nikolaus
    Nils Nina Noah Noel Nora Norbert Norman Oleg Olga Oliver Olivia Olivier Oscar Oskar Owen Pablo Paola Paolo
    Pascal Patricia Patrick Patrik Paul Paula Paulina Pauline Paulo Pawel Pedro Peggy Pekka Peter Petr Petra Phil
    Philip Philipp Philippe Piero Pierre Pieter Piotr Rachel Rafael Rahel Rainer Ralf Ralph Raul Raymond Rebecca
    Regina Reinhard Reinhold Renate Rene René Riccardo Ricardo Richard Rita Robert Roberta Roberto Roger Roland Rolf
    Romain Ron Ronald Rosa Rosalie Rosemarie Rosemary Roswitha Roy Rudi Rudolf Rupert Russell Ruth Ryan Sabine
    Sabrina Sally Salvatore Sam Samantha Samuel Sandra Sara Sarah Sascha Scott Sean Sebastian Sergei Sergio Seth
    Shane Sharon Sheila Shirley Siegfried Sigrid Silke Silvia Simon Simona Simone Sofia Sonja Sophia Sophie
    Stanislaw Stefan Stefania Stefanie Stefano Stephan Stephane Stephanie Stephen Steve Steven Stuart Sue Susan
    Susanna Susanne Suzanne Sven Svenja Svetlana Sylvia Sylvie Tamara Tania Tanja Tatjana Teresa Terry Tessa Theo
    Theodor Theresa Therese Thierry Thomas Thorsten Tiago Tim Timo Timothy Tina Tobias Todd Tom Tomas Tomasz Tommy
    Toni Tony Torben Torsten Tracy Trevor Udo Ulf Ulla Ulrich Ulrike Urs Ursula Ute Uwe Valentina Valeria Valerie
    Vanessa Vera Verena Veronica Veronika Veronique Vicky Victoria Vincent Vincenzo Virginie Vito Vittorio Vivian
    Vladimir Volker Waldemar Walter Waltraud Werner Wilfried Wilhelm William Willi Willy Wilma Wojciech Wolfgang
    Xavier Yannick Yves Yvonne Zbigniew Zoe
    """.split()  # noqa: SIM905 - a list would take a hundred lines
)
"""As they begin a sentence, with their accents."""
