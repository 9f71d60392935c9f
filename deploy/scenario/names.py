"""The words of the invented championship.

The places do not exist as schools. Given and family names of several languages are common or made
up; families that are known from sport were left out, and pairs are put together by chance.
"""

from dataclasses import dataclass

from deploy.scenario.chance import Chance


@dataclass(frozen=True, slots=True)
class TeamName:
    """A team's name and short form; `members` are the schools of a co-operative one."""

    name: str
    short: str
    members: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """The team's id in the file."""
        return self.short.lower()


TEAMS = (
    TeamName("Alder Valley", "ALD"),
    TeamName("Brindle Harbor", "BRI"),
    TeamName("Copper Mesa", "COP"),
    TeamName("Dunmarrow", "DUN"),
    TeamName("Eskdale Sound", "ESK"),
    TeamName("Fallow Ridge", "FAL"),
    TeamName("Grayling Point", "GRA"),
    TeamName("Hollin Bay", "HOL"),
    TeamName("Ironmoor", "IRO"),
    TeamName("Juniper Flats", "JUN"),
    TeamName("Kestrel Lake", "KES"),
    TeamName("Larkmoor", "LAR"),
    TeamName("Marrow Creek", "MAR"),
    TeamName("Netherby Plains", "NET"),
    TeamName("Orrin Falls", "ORR"),
    TeamName("Pinder Hollow", "PIN"),
    TeamName("Quillan Forge", "QUI"),
    TeamName("Rusthaven", "RUS"),
    TeamName("Saltmarsh Tech", "SAL"),
    TeamName("Thornby and Ashlow", "T&A", ("Thornby", "Ashlow")),
    TeamName("Umber Hills", "UMB"),
    TeamName("Vesper Island", "VES"),
    TeamName("Wexmoor", "WEX"),
    TeamName("Yarrow Basin", "YAR"),
)
VISITORS = ("Birch Hollow", "Cinder Bluff", "Lantern Hill", "Millrace", "Sorrel Gap", "Tollgate")


@dataclass(frozen=True, slots=True)
class Tongue:
    """Given and family names that go together."""

    given: tuple[str, ...]
    family: tuple[str, ...]


def _tongue(given: str, family: str) -> Tongue:
    return Tongue(tuple(given.split()), tuple(name.replace("_", " ") for name in family.split()))


TONGUES = (
    _tongue(
        "Ansel Bram Calder Desmond Emmett Gideon Harlan Jasper Lowell Merritt Orson Perrin Rhett",
        "Ashcombe Brackwell Coldridge Ellinwick Fenwright Garrowby Hathersley Kirkbarrow Lanyon "
        "Marlsford Northam Oakhollow Pellwood Rainscroft Stannery Thornhay Uppersall Wexley",
    ),
    _tongue(
        "Elijah Isaiah Jalen Kendrick Langston Malachi Nehemiah Omari Quincy Terrell Zion Amari",
        "Bellefont Crowder-Hayes Dupree-Vance Everline Fontenelle Goodspring Hightree Lovelane "
        "Merriday Peacefield Rivershaw Sweetwater-Lyle Tolliver-Nash Whitlow-Boone",
    ),
    _tongue(
        "Abelardo Benicio Ciro Efraín Gael Heriberto Isaías Joaquín Lázaro Matías Óscar Tadeo",
        "Arriagada Balcázar Dávalos Echenique Farfalla Huarte Iturbide-Sol Jaramilla Lizárraga "
        "Montalvo Olavide Peñaloza Quintanal Saldívar Urrutiaga Villaseñor Zaldívar",
    ),
    _tongue(
        "Anatoliy Bohdan Danylo Fedir Hryhoriy Lyubomyr Nazar Ostap Rostyslav Svyatoslav Taras "
        "Vsevolod Yevhen Zakhar",
        "Bilozirko Chumachok Hrytsayenko Khomenets Kryvoshyya Lushchak Myronyuk Nechyporets "
        "Pidhorets Shcherbynets Vdovychenko Yarmolych Zhuravlenko Oliynychuk",
    ),
    _tongue(
        "Bartłomiej Cyprian Dobromir Grzegorz Hynek Jiří Krzysztof Ondřej Radovan Štěpán Tomáš Vuk",
        "Brzezicki Čermavý Dvořánek Głowala Hruškovec Jelinčić Krzemiński-Wal Ławniczek Mađarac "
        "Pšeničný Říhánek Šebkovec Świerkosz Trávnický Vrtačnik Wójcikowicz",
    ),
    _tongue(
        "Anders Bjørn Eskil Frode Gunnar Håkon Iver Jörg Leif Njål Søren Torvald Ulrik",
        "Aasmark Björkdahl Dybvåg Fjellmyr Grønlien Hjelmås Jægerlund Kjærbo Møllerup Nyholmen "
        "Ødegren Rønnebæk Skogvik Tjønnli Vesterås-Lie Åkerlind",
    ),
    _tongue(
        "Abiodun Babatunde Chinedu Ekow Folarin Ifeanyi Kwabena Mamadou Obinna Sékou Yaw Zubairu",
        "Adefuye Agyeibi Dankyira Ebereonwu Fatunmbi Gyasimba Iwualani Kaborédou Nwachinemere "
        "Odunlade Ogunsile Okparaeke Sangodele Tamakloe Uchendike",
    ),
    _tongue(
        "Akio Bình Daichi Duy Haruto Jae-won Kenji Khôi Liang Phúc Quân Ren Seung-ho Taiyo",
        "Aoyagi Bùi Đặng Fujisawara Hoàng Ishimine Kwonhae Moriwaki Ngô Nishihama Phạm Seohan "
        "Tamashiro Trịnh Yamabuki Zhuang Xiongwen",
    ),
    _tongue(
        "Arash Bilal Cemal Dariush Emre Farid Gurpreet Idris Jamshid Levan Murad Omid Sarkis Vahan",
        "Bahmanyar Çelebican Dastgirzad Farahvash Gelavani Ghazanfar Gökselen Javanrud "
        "Karapetov-Nur Lashkarid Nazaryants Özgürel Paymanfar Qasimzad Sandhuwal Tavakkolian "
        "Uçarel Yüceldağ",
    ),
    _tongue(
        "Aurelio Baptiste Cormac Éamon Fiachra Gwilym Iolo Kawika Lorcan Niccolò Owain Rémi Sione "
        "Tavita Théo Yannick",
        "Bellavigna Cadwgan Donnabhain Eluère d'Hauteville De_Luchi Faleoma Fiorentelli Haverty "
        "Kahananui Lanfrachi Mahelona Ó_Braonáin Pellegrinotti Rousselière Tregarth Vauquelin "
        "van_der_Wiel",
    ),
)


def people(chance: Chance, count: int) -> list[tuple[str, str]]:
    """So many people as (given, family), no family more than three times and no person twice."""
    families = [(tongue, family) for tongue in TONGUES for family in tongue.family]
    drawn = [pair for _ in range(3) for pair in chance.shuffled(families)]
    found: dict[tuple[str, str], None] = {}
    for tongue, family in drawn:
        given = chance.pick(tongue.given if chance.yes(0.9) else chance.pick(TONGUES).given)
        found.setdefault((given, family))
        if len(found) == count:
            break
    return list(found)
