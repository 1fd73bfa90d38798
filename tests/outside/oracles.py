"""Figures printed by their sources, by the answers of `weigh --json`.

Sources: USDA SR28 (2015) by food number; American Egg Board, size equivalents; NIST Handbook 44, Appendix C, for pounds
and ounces. Two conversions follow from them by arithmetic alone and are marked so.
"""

SUBJECT = "published figures through `weigh`"

# Line, grams, source.
GRAMS = [
    ("1 cup all-purpose flour", 125, "SR28 20081"),
    ("1 cup unbleached all-purpose flour", 125, "SR28 20581"),
    ("1 cup granulated sugar", 200, "SR28 19335"),
    ("1 tsp granulated sugar", 4.2, "SR28 19335"),
    ("1 stick unsalted butter", 113, "SR28 01145"),
    ("1 cup unsalted butter", 227, "SR28 01145"),
    ("1 tbsp unsalted butter", 14.2, "SR28 01145"),
    ("1 cup packed brown sugar", 220, "SR28 19334, packed"),
    ("1 cup brown sugar, packed", 220, "SR28 19334, packed"),
    ("1 cup brown sugar, unpacked", 145, "SR28 19334, unpacked"),
    ("1 cup loosely packed brown sugar", 145, "SR28 19334, unpacked"),
    ("1 cup sifted powdered sugar", 100, "SR28 19336, sifted"),
    ("1 cup powdered sugar, unsifted", 120, "SR28 19336, unsifted"),
    ("1 cup powdered sugar", 120, "SR28 19336, unsifted"),
    ("1 cup cake flour", 137, "SR28 20084, unsifted, dipped"),
    ("1 large egg", 50, "SR28 01123"),
    ("1 large egg white", 33, "SR28 01124"),
    ("1 large egg yolk", 17, "SR28 01125"),
    ("1 cup egg", 243, "SR28 01123"),
    ("1 cup egg white", 243, "SR28 01124"),
    ("1 cup egg yolk", 243, "SR28 01125"),
    ("1 jumbo egg", 63, "SR28 01123"),
    ("1 extra large egg", 56, "SR28 01123"),
    ("1 medium egg", 44, "SR28 01123"),
    ("1 small egg", 38, "SR28 01123"),
    ("1 cup honey", 339, "SR28 19296"),
    ("1 tbsp honey", 21, "SR28 19296"),
    ("1 cup molasses", 337, "SR28 19304"),
    ("1 cup heavy cream", 238, "SR28 01053, fluid"),
    ("1 cup whipped heavy cream", 120, "SR28 01053, whipped"),
    ("1 tbsp heavy cream", 15, "SR28 01053, fluid"),
    ("1 cup whole milk", 244, "SR28 01077"),
    ("1 fl oz whole milk", 30.5, "SR28 01077"),
    ("1 cup unsweetened cocoa powder", 86, "SR28 19165"),
    ("1 tbsp unsweetened cocoa powder", 5.4, "SR28 19165"),
    ("1 cup cornstarch", 128, "SR28 20027"),
    ("1 tsp table salt", 6, "SR28 02047"),
    ("1 tbsp table salt", 18, "SR28 02047"),
    ("1 cup table salt", 292, "SR28 02047"),
    ("1 dash table salt", 0.4, "SR28 02047"),
    ("1 tsp baking powder", 4.6, "SR28 18369"),
    ("1 tsp baking soda", 4.6, "SR28 18372"),
    ("1 packet active dry yeast", 7.2, "SR28 18375, as printed there"),
    ("1 tsp active dry yeast", 4, "SR28 18375"),
    ("1 envelope powdered gelatin", 7, "SR28 19177"),
    ("1 cup whole almonds", 143, "SR28 12061, whole"),
    ("1 cup sliced almonds", 92, "SR28 12061, sliced"),
    ("1 cup slivered almonds", 108, "SR28 12061, slivered"),
    ("1 cup ground almonds", 95, "SR28 12061, ground"),
    ("1 cup lemon juice", 244, "SR28 09152"),
    ("juice of 1 lemon", 48, "SR28 09152, lemon yields"),
    ("1 tsp vanilla extract", 4.2, "SR28 02050"),
    ("1 tbsp vanilla extract", 13, "SR28 02050"),
    ("1 cup vanilla extract", 208, "SR28 02050"),
    ("1 tbsp cocoa butter", 13.6, "SR28 04501"),
    ("1 cup cocoa butter", 218, "SR28 04501"),
    ("1 cup olive oil", 216, "SR28 04053"),
    ("1 cup rolled oats", 81, "SR28 08120"),
    ("35.274 oz all-purpose flour", 1000, "NIST Handbook 44: 1 kg = 35.274 oz"),
    ("2 lb 3.274 oz all-purpose flour", 1000, "NIST Handbook 44: 1 kg = 2 lb 3.274 oz"),
    ("1 1/2 cups granulated sugar", 300, "SR28 19335, by arithmetic"),
    ("3/4 cup all-purpose flour", 93.75, "SR28 20081, by arithmetic"),
]

# Weight, the level measure shown for it, source.
LEVELS = [
    ("250 g all-purpose flour", "2 cups", "SR28 20081: 125 g a cup"),
    ("200 g granulated sugar", "1 cup", "SR28 19335"),
    ("488 g whole milk", "2 cups", "SR28 01077: 244 g a cup"),
    ("113 g unsalted butter", "1/2 cup", "SR28 01145: 227 g a cup"),
    ("6 g table salt", "1 tsp", "SR28 02047"),
    ("42 g honey", "2 tbsp", "SR28 19296: 21 g a tablespoon"),
]

# A cup of egg in large eggs: American Egg Board, size equivalents (5, 7 and 14; 4.86, 7.36 and 14.29 by SR28).
EGGS_A_CUP = [("1 cup egg", "5 large eggs"), ("1 cup egg white", "7 large egg whites"),
              ("1 cup egg yolk", "14 large egg yolks")]


def check(tally, program):
    lines = dict.fromkeys(line for line, *_ in GRAMS + LEVELS + EGGS_A_CUP)
    answers = program.weigh(list(lines))
    for line, grams, source in GRAMS:
        got = (answers[line]["grams"] or {}).get("low")
        tally.near(f"{line} ({source})", got, grams, within=0.005)
    for line, level, source in LEVELS:
        tally.equal(f"{line} ({source})", answers[line]["level"], level)
    for line, count in EGGS_A_CUP:
        tally.equal(f"{line} (American Egg Board)", answers[line]["count"], count)
