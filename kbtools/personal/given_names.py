"""Given names that mean nothing else, for telling a person behind `from` and `by` from a thing.

Common knowledge of the languages, no source; on purpose without those that are also words of the trade or of
a calendar (Mark, Bill, Jack, Rod, Allen, Otto, Jan, June).
"""

from __future__ import annotations

GIVEN_NAMES = frozenset(
    """
    Aaron Abdul Abdullah Abigail Achim Adam Adebayo Adele Adrian Adriana Agata Agnes Agnieszka Ahmed Aidan Aisha
    Akira Alan Albert Alberto Alejandro Aleksander Alessandra Alessandro Alessia Alex Alexander Alexandra Alexandre
    Alexis Alfonso Alfred Alice Alicia Alina Alison Alistair Allison Amanda Amelia Amelie Amina Amir Amit Amy Ana
    Anders Andi Andrea Andreas Andrei Andrew Andrzej Andy Angela Angelo Angus Anil Anita Anja Anjali Anke Ann Anna
    Annabel Anne Annette Annie Annika Ansgar Anthony Antje Antoine Anton Antonella Antonia Antonio Arjun Arne Arnold
    Arthur Arturo Arun Ashok Asif Astrid Audrey Aurelie Ayesha Ayşe Barbara Barry Bart Bastian Baz Beata Beatrice
    Beatrix Beatriz Ben Benedikt Benjamin Benoit Bernard Bernd Bernhard Bert Berta Bettina Betty Bianca Bilal Birgit
    Bjarne Bjorn Björn Bobby Bogdan Boris Brenda Brian Bridget Brigitte Britta Bronwen Bruce Bruno Bryan Callum
    Camille Carina Carl Carla Carlo Carlos Carmen Caroline Carolyn Carsten Caterina Catherine Cathy Cecilia Cedric
    Celine Charles Charlie Charlotte Chiara Chidi Chloe Chris Christa Christian Christiane Christina Christine
    Christoph Christophe Christopher Ciaran Claire Clara Claudia Claudio Claus Clemens Colin Colm Connor Conor
    Corinna Cornelia Craig Cristina Cynthia Dagmar Damian Dan Daniel Daniela Daniele Danielle Danny Darragh Darren
    Dave Davey David Davide Daz Deborah Deepak Denis Dennis Derek Detlef Diana Diane Diarmuid Diego Dieter Dietmar
    Dimitri Dirk Dmitri Dominik Dominique Donald Donna Dora Doris Dorothea Dorothy Doug Douglas Dragan Duncan Dylan
    Eberhard Eddie Edgar Edith Eduardo Edward Edwin Eileen Eirik Elaine Eleanor Elena Eleni Elias Elisa Elisabeth
    Elizabeth Elke Ella Ellen Elsa Emeka Emil Emilia Emilie Emily Emma Emmanuel Enrico Enrique Eoin Erica Erich Erik
    Erika Erwin Esther Eugen Eva Evelyn Ewa Fabian Fabio Fabrice Fatima Federica Federico Felicitas Felix Ferdinand
    Fergus Fernando Filip Filippo Fiona Florian Frances Francesca Francesco Francis Francisca Francisco Franco Franz
    Franziska Fred Freddy Frederic Frederick Freya Frieda Friedrich Fritz Gabriel Gabriela Gabriele Gareth Gary
    Gavin Gaz Geert Geoff Geoffrey Georg George Georgia Georgina Gerald Gerard Gerd Gerhard Gert Gertrud Giacomo
    Gianni Gilbert Gina Giorgio Giovanna Giovanni Gisela Giulia Giuseppe Goran Gordon Graham Greg Gregor Gregory
    Greta Grzegorz Gudrun Guido Guillaume Gunnar Gunther Gustav Gwen György Gábor Günter Günther Haakon Hamish Hanna
    Hannah Hannelore Hannes Hans Harald Hartmut Hassan Hector Heidi Heike Heiko Heiner Heinrich Heinz Helen Helena
    Helene Helga Helge Helmut Hendrik Henri Henrik Henry Herbert Hermann Hettie Hilda Hilde Hiroshi Holger Horst
    Howard Hubert Hugo Ian Ibrahim Ilona Ilse Ines Inga Inge Ingeborg Ingo Ingrid Irene Irina Isaac Isabel Isabella
    Isabelle István Ivan Ivana Iwona Iñaki Jaap Jacek Jacob Jacqueline Jacques Jakob Jakub James Jamie Jana Jane
    Janet Janina Janine Jason Javier Jean Jeanette Jeanne Jeff Jeffrey Jennifer Jenny Jens Jeremy Jerome Jerry
    Jessica Jessie Jill Jim Jimmy Joachim Joan Joanna Joanne Joao Jochen Joe Joel Johan Johann Johanna Johannes John
    Johnny Jonas Jonathan Joost Jordi Jorge Jose Josef Joseph Josephine Joshua José João Juan Juanita Judith Judy
    Juha Jukka Julia Julian Juliana Julie Juliette Julius Justin Justyna Jutta Jørgen Jürgen Kai Kamil Karen Karim
    Karin Karl Karla Karsten Kasia Katarina Katarzyna Kate Katharina Katherine Kathleen Kathrin Kathy Katie Katja
    Katrin Katy Kavita Kazimierz Keith Ken Kenji Kenneth Kenny Kerstin Kev Kevin Kiran Kirsten Kjell Klara Klaus
    Knut Kofi Konrad Konstantin Krishna Krzysztof Kurt Kwame Kyle Lakshmi Lars Lasse Laura Lauren Laurence Laurent
    Leah Leif Lena Lenny Leon Leonard Leonardo Leonie Leslie Lewis Liam Linda Lisa Lorenzo Lothar Lotte Louis Louise
    Luc Luca Lucas Lucia Lucie Lucy Ludwig Luigi Luis Luisa Lukas Luke Lutz Lydia László Maciej Mads Magda Magdalena
    Magnus Malcolm Malgorzata Manfred Manuel Manuela Marc Marcel Marcello Marcin Marco Marcos Marcus Marek Margaret
    Margarete Margit Margot Maria Mariana Marianne Marie Mario Marion Marit Marius Marjorie Marko Markus Marlene
    Marta Martha Martina Mary Massimo Mateo Mateusz Mathias Mathieu Mathilde Mats Matteo Matthew Matthias Maureen
    Maurice Mauricio Maurizio Maximilian Maya Meera Megan Mehmet Melanie Melissa Mia Michael Michaela Michal Michał
    Michel Michele Michelle Mick Miguel Mikael Mike Mikhail Milan Milena Mira Miriam Miroslav Mohamed Mohammed Mohan
    Monica Monika Monique Moritz Morten Muhammad Mustafa Nadia Nadine Nancy Naomi Natalia Natalie Natasha Nathalie
    Nathan Neha Neil Niall Niamh Nicholas Nicola Nicolas Nicole Niels Nige Nigel Nikola Nikolai Nikolaus Nils Nina
    Noah Noel Nora Norbert Norman Olaf Oleg Olena Olga Oliver Olivia Olivier Omar Ondřej Oscar Oskar Owen Pablo
    Paddy Paola Paolo Pascal Patricia Patrick Patrik Paul Paula Paulina Pauline Paulo Pawel Paweł Pedro Peggy Pekka
    Peter Petr Petra Phil Philip Philipp Philippe Pia Piero Pierre Piet Pieter Piotr Pooja Priya Rachel Rafael Rahel
    Rahul Rainer Raj Rajesh Ralf Ralph Rasmus Raul Ravi Raymond Rebecca Regina Reinhard Reinhold Renate Rene René
    Rhys Ricardo Riccardo Richard Rita Robert Roberta Roberto Roger Roland Rolf Romain Ron Ronald Ronnie Rory Rosa
    Rosalie Rosemarie Rosemary Rosie Roswitha Roy Rudi Rudolf Rupert Russell Ruth Ryan Sabine Sabrina Sally
    Salvatore Sam Samantha Samuel Sandra Sanjay Santiago Saoirse Sara Sarah Sascha Satoshi Scott Sean Sebastian
    Sergei Sergio Seth Shane Sharon Sheila Shirley Sid Siegfried Sigrid Silke Silvia Simon Simona Simone Sinead
    Siobhan Sipho Sjoerd Sofia Sonja Sophia Sophie Stanislaw Stefan Stefania Stefanie Stefano Stephan Stephane
    Stephanie Stephen Steve Steven Stig Stu Stuart Sue Sunil Suresh Susan Susanna Susanne Suzanne Sven Svenja
    Svetlana Sylvia Sylvie Søren Tadeusz Takeshi Tamara Tania Tanja Tatjana Teresa Terry Tessa Thabo Theo Theodor
    Theresa Therese Thierry Thomas Thorsten Tiago Tim Timo Timothy Tina Tobias Todd Tom Tomas Tomasz Tomek Tommy
    Toni Tony Torben Torsten Tove Tracy Trev Trevor Trond Udo Ulf Ulla Ulrich Ulrike Urs Ursula Ute Uwe Valentina
    Valeria Valerie Vanessa Vera Verena Veronica Veronika Veronique Vicky Victoria Vijay Vikram Viktor Vince Vincent
    Vincenzo Virginie Vito Vittorio Vivian Vladimir Volker Waldemar Walter Waltraud Wanda Wendy Wenzel Werner
    Wilfried Wilhelm Willem Willi William Willy Wilma Wojciech Wolfgang Wouter Xavier Yannick Yasmin Yuki Yusuf Yves
    Yvonne Zanele Zbigniew Zdeněk Zoe Zofia Zoltán Zuzana Åke Åsa
    """.split()  # noqa: SIM905 - a list would take a hundred lines
)
"""As they begin a sentence, with their accents."""
