"""Given names that mean nothing else, for telling a person behind `from` and `by` from a thing.

Common knowledge of the languages, no source; on purpose without those that are also words of the trade or of
a calendar (Mark, Bill, Jack, Rod, Allen, Otto, Jan, June).
"""

from __future__ import annotations

GIVEN_NAMES = frozenset(
    """
    Aaron Abdul Abdullah Abigail Achim Adaeze Adam Adebayo Adele Adil Adrian Adriana Agata Agathe Agnes Agnieszka
    Ahmed Aidan Aiko Aisha Akira Alan Albert Alberto Alejandro Aleksander Aleksandra Alena Alessandra Alessandro
    Alessia Alex Alexander Alexandra Alexandre Alexis Aleš Alfie Alfonso Alfred Alice Alicia Alina Alison Alistair
    Allison Amanda Amelia Amelie Amina Amir Amira Amit Amy Ana Anders Andi Andrea Andreas Andrei Andrew Andrzej Andy
    Angela Angelo Angus Anil Anita Anja Anjali Anke Ann Anna Annabel Anne Annette Annie Annika Ansel Anselm Ansgar
    Anthony Antje Antoine Anton Antonella Antonia Antonio Antti Anya Archie Arjen Arjun Arne Arnold Arthur Arturo
    Arun Arvid Arvind Ashok Asif Aslak Astrid Attila Audrey Aurelie Ayesha Aylin Ayşe Barbara Barry Bart Bartek
    Bartosz Bastian Bastien Baz Beata Beatrice Beatrix Beatriz Ben Bence Benedikt Benjamin Benoit Beppe Bernard
    Bernd Berndt Bernhard Bert Berta Bertie Bettina Betty Bianca Bilal Birgit Bjarne Bjarte Bjorn Björn Blanka Bobby
    Bogdan Bogumil Boguslaw Bohdan Bohumil Boris Božena Bram Branko Brenda Brian Bridget Brigitte Britta Bronwen
    Bruce Bruno Bryan Callum Camila Camille Carina Carl Carla Carlo Carlos Carmel Carmen Caroline Carolyn Carsten
    Catarina Caterina Catherine Cathy Cecilia Cedric Celine Charles Charlie Charlotte Chiara Chidi Chinedu Chiyo
    Chloe Chris Christa Christian Christiane Christina Christine Christoph Christophe Christopher Ciara Ciaran
    Claire Clara Claudia Claudio Claus Clemens Colin Colm Connor Conor Corentin Corinna Cormac Cornelia Cosimo Craig
    Cristina Cynthia Cyril Daan Dafydd Dagmar Damian Damien Dan Daniel Daniela Daniele Danielle Danny Daphne Dario
    Darragh Darren Dave Davey David Davide Daz Deborah Deepak Deirdre Delphine Denis Denise Dennis Derek Desmond
    Detlef Diana Diane Diarmuid Diego Dieter Dietmar Dimitri Dina Dinesh Dirk Dmitri Dmitry Dominik Dominique Donal
    Donald Donna Dora Doris Dorota Dorothea Dorothy Doug Douglas Dragan Duarte Duncan Dušan Dylan Ebba Eberhard Ebru
    Eddie Edgar Edith Edmund Eduardo Edward Edwin Efua Eileen Eino Eirik Eivind Elaine Eleanor Elena Eleni Elias
    Elif Elisa Elisabeth Elizabeth Elke Ella Ellen Elodie Eloise Elsa Elsbeth Emeka Emil Emilia Emilie Emilio Emily
    Emine Emma Emmanuel Emre Enrico Enrique Enzo Eoin Erica Erich Erik Erika Erkki Ernesto Ernst Erwin Espen Esteban
    Esther Etienne Eugen Eugene Eva Evelyn Evert Ewa Ewan Fabian Fabio Fabrice Farah Farid Fatima Federica Federico
    Felicitas Felix Femke Ferdinand Ferenc Fergus Fernando Filip Filippo Finlay Finn Fiona Fiorenzo Florian Frances
    Francesca Francesco Francis Francisca Francisco Franco Franz Franziska Fred Freddy Frederic Frederick Freya
    Frida Frieda Friedhelm Friedrich Fritjof Fritz Frode Gabriel Gabriela Gabriele Gaetano Gareth Gary Gaspard
    Gauthier Gavin Gaz Geert Geoff Geoffrey Georg George Georgia Georgina Gerald Geraldine Gerard Gerd Gergely
    Gerhard Gerrit Gert Gertrud Giacomo Giancarlo Gianni Gilbert Giles Gilles Gina Ginevra Giorgio Giovanna Giovanni
    Gisela Gisele Giulia Giuseppe Goran Gordon Gottfried Govind Graham Grainne Greg Gregor Gregory Greta Grzegorz
    Gudrun Guido Guillaume Gunnar Gunther Gunvor Gustaf Gustav Gwen Gwyneth György Gábor Günter Günther Haakon Hakan
    Halina Hamish Hanna Hannah Hanneke Hannelore Hannes Hans Harald Hartmut Haruka Haruto Hasan Hassan Hector Hedda
    Heidi Heike Heiko Heiner Heinrich Heinz Helen Helena Helene Helga Helge Helmut Hendrik Henri Henrik Henry
    Herbert Hermann Hettie Hideo Hilda Hilde Hiro Hiroshi Holger Horst Howard Hubert Hugo Hussein Ian Ibrahim
    Ignacio Ilaria Ilkka Ilona Ilse Ilya Imran Ines Inga Inge Ingeborg Ingo Ingrid Inès Ioana Ioannis Irene Irina
    Irma Isaac Isabel Isabella Isabelle Isla Ismail István Ivan Ivana Iwona Iñaki Jaap Jabari Jacek Jacob Jacqueline
    Jacques Jadwiga Jagdish Jakob Jakub Jamal James Jamie Jana Jane Janek Janet Janina Janine Janusz Jarek Jari
    Jaroslav Jasmin Jason Jasper Javier Jean Jeanette Jeanne Jeff Jeffrey Jennifer Jenny Jens Jeremy Jerome Jerry
    Jerzy Jesper Jessica Jessie Jette Jill Jim Jimmy Jitka Joachim Joan Joanna Joanne Joao Jochen Joe Joel Johan
    Johann Johanna Johannes John Johnny Jolanta Jonas Jonathan Jonno Joost Jordi Jorge Jorgen Joris Jose Josef
    Joseph Josephine Joshua Josip José Joyce João Juan Juanita Judith Judy Juha Jukka Julia Julian Juliana Julie
    Juliette Julius Jussi Justin Justyna Jutta Jørgen Jürgen Kai Kaito Kalle Kamil Kaori Karen Karim Karin Karl
    Karla Karolina Karsten Kasia Kasper Katalin Katarina Katarzyna Kate Katerina Katharina Katherine Kathleen
    Kathrin Kathy Katie Katja Katrin Katy Kavita Kazimierz Kazuo Keith Kelechi Kemal Ken Kenji Kenneth Kenny Kenta
    Kerem Kerstin Kev Kevin Kiran Kirsten Kjell Klaas Klara Klaus Knut Kofi Konrad Konstantin Krishna Krzysiek
    Krzysztof Kumar Kurt Kwame Kyle Lachlan Lakshmi Larissa Lars Lasse Laura Lauren Laurence Laurent Leah Leif Leila
    Lena Lennart Lenny Leon Leonard Leonardo Leonie Lerato Leslie Leszek Lewis Leyla Liam Lieke Lieve Linda Lindsay
    Linus Lionel Lisa Lorenzo Lorna Lothar Lotte Louis Louise Loïc Luca Lucas Lucia Lucie Lucy Ludovic Ludwig Luigi
    Luis Luisa Lukas Luke Lutz Luuk Lydia László Maarten Maciej Mads Magda Magdalena Magnus Mahmoud Maja Malcolm
    Malgorzata Malik Malin Manfred Manoj Manon Manuel Manuela Marc Marcel Marcello Marcelo Marcin Marco Marcos
    Marcus Mareike Marek Margaret Margarete Margaux Margherita Margit Margot Maria Mariana Marianne Marie Marieke
    Marina Mario Marion Marit Marius Mariusz Marjorie Marko Markus Markéta Marleen Marlene Marta Martha Martina Mary
    Maryam Massimo Mateo Mateusz Mathias Mathieu Mathilde Mats Matteo Matthew Matthias Mattias Maureen Maurice
    Mauricio Maurizio Mauro Maximilian Maya Meera Megan Mehdi Mehmet Meike Melanie Melissa Merete Mia Michael
    Michaela Michal Michał Michel Michele Michelle Mick Mickey Micky Mieke Miguel Mikael Mike Mikhail Mikko Milan
    Milena Milos Miloš Mira Mirek Miriam Mirko Miroslav Mohamed Mohammed Mohan Monica Monika Monique Moritz Morten
    Muhammad Murat Mustafa Myriam Mária Nadia Nadine Nancy Naoko Naomi Natalia Natalie Natasha Nathalie Nathan Neha
    Neil Nelson Neža Niall Niamh Nicholas Nicola Nicolai Nicolas Nicole Nicolò Niels Nige Nigel Nikhil Niklas Nikola
    Nikolai Nikolaus Nikos Nils Nina Noah Noel Noor Nora Norbert Norman Olaf Olav Oleg Olena Olga Oliver Olivia
    Olivier Omar Ondřej Oona Orla Osama Oscar Oskar Oskari Ottavio Owen Pablo Paddy Padraig Paola Paolo Pascal
    Patricia Patrick Patrik Paul Paula Paulina Pauline Paulo Pawel Paweł Pedro Peggy Pekka Pelle Perrine Peter Petr
    Petra Phil Philip Philipp Philippe Pia Piero Pierre Piet Pieter Pilar Piotr Pooja Prakash Priya Quentin Rachel
    Rafael Rafal Rafał Rahel Rahul Rainer Raj Rajesh Ralf Ralph Ramesh Ramon Rasmus Raul Ravi Raymond Rebecca Regina
    Reinhard Reinhold Renate Rene René Rhys Ricardo Riccardo Richard Rikke Rishi Rita Roald Robbie Robbo Robert
    Roberta Roberto Roger Rohan Roland Rolf Romain Roman Ron Ronald Ronnie Rory Rosa Rosalie Rosaria Rosemarie
    Rosemary Rosie Roswitha Roy Ruben Rudi Rudolf Rupert Russell Ruth Ruud Ryan Ryszard Sabine Sabrina Sachiko Saeed
    Sakura Sally Salma Salvatore Sam Samantha Samuel Sandra Sanjay Sanne Santiago Saoirse Sara Sarah Sascha Satoshi
    Scott Sean Sebastian Selim Sergei Sergio Seth Shane Sharon Shaz Sheila Shirley Shreya Sibusiso Sid Siegfried
    Sigrid Sigurd Silke Silvia Simon Simona Simone Sindre Sinead Siobhan Sipho Sjoerd Slavko Sofia Solveig Sonja
    Sophia Sophie Soren Stanislaw Stefan Stefania Stefanie Stefano Stephan Stephane Stephanie Stephen Steve Steven
    Stian Stig Stijn Stu Stuart Sue Sunil Suresh Susan Susanna Susanne Sushila Suzanne Sven Svenja Svetlana Sylvia
    Sylvie Søren Taavi Tadeusz Takeshi Takumi Tamara Tamás Tania Tanja Tariq Tatiana Tatjana Teresa Terry Tessa Teun
    Thabo Thandi Theo Theodor Theresa Therese Thierry Thijs Thomas Thorsten Thulani Tiago Tiina Tijn Tim Timo
    Timothy Tina Tjeerd Tobi Tobias Todd Tom Tomas Tomasz Tomaž Tomek Tommaso Tommy Toni Tonje Tony Torben Torbjörn
    Torsten Tove Tracy Trev Trevor Trond Tuomas Uchenna Udo Ulf Ulla Ulrich Ulrike Umberto Unni Urs Ursula Ute Uwe
    Valentin Valentina Valeria Valerie Valérie Vanessa Vasile Veikko Venkat Vera Verena Veronica Veronika Veronique
    Vicky Victoria Vidar Vijay Vikram Viktor Vilma Vince Vincent Vincenzo Vinny Vinod Violeta Virginie Vito Vittorio
    Vivek Vivian Vladimir Volker Waldemar Walter Waltraud Wanda Wanjiru Wendy Wenzel Werner Wiebke Wieslaw Wilf
    Wilfried Wilhelm Willem Willi William Willy Wilma Winston Witold Wojciech Wolfgang Wouter Xavier Xiaoming
    Yannick Yasmin Yasuko Yiannis Yuki Yuri Yusuf Yves Yvonne Zainab Zanele Zbigniew Zdeněk Zoe Zofia Zoltan Zoltán
    Zsófia Zuzana Ágnes Åke Åsa Émile Éric Étienne Ömer Örjan Øystein
    """.split()  # noqa: SIM905 - a list would take a hundred lines
)
"""As they begin a sentence, with their accents."""
