from tools.sheets import sheet
from workbook_tools.intake.regions import find_regions

LOG = "Date|Bin|ml\n18/11/26|A1|40\n19/11/26|A2|40\n20/11/26|A3|30\n"
BINS = "Bin|Species|Shelf|Started|Note\nA1|x|top|2024|a\nA2|y|top|2024|b\nA3|z|low|2025|c\n"


def last_row(text):
    return find_regions(sheet("S", text))[0].area.bottom


def test_a_list_below_a_gap_ends_a_log():
    assert last_row(f"{LOG}\nThings to buy\nleaves|2 bags\ncuttlebone|5") == 4


def test_a_list_below_a_gap_ends_a_list_of_bins():
    assert last_row(f"{BINS}\nThings to buy\nleaves|2 bags\ncuttlebone|5") == 4


def test_rows_of_the_same_shape_go_on_below_a_gap():
    assert last_row(f"{LOG}\nKitchen\n21/11/26|A1|40\n\n22/11/26|A1|") == 9
    assert last_row(f"{BINS}\nLow shelf\nA4|x|low|2024|\nA5|y|low||") == 8


def test_rows_that_cannot_be_told_stay_when_the_table_goes_on_below_them():
    assert last_row(f"{LOG}\nthis round\nyesterday|A1|40\nyesterday|A2|40\n\n22/11/26|A1|30") == 10
