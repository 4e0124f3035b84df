"""Places that a made site may stand at: where they are, and the year's course of their weather in four numbers."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Place:
    zone: str
    latitude: float
    longitude: float
    elevation_m: int
    mean_c: float      # of the year
    swing_c: float     # half of the difference between the warmest and the coldest month
    range_c: float     # of an ordinary day, lowest to highest
    rainy_days: float  # share of days

    @property
    def is_tropical(self):
        return abs(self.latitude) < 23.5

    @property
    def is_southern(self):
        return self.latitude < 0


PLACES = [
    Place("Europe/Madrid", 40.95, 0.45, 110, 16.0, 9.0, 12.0, 0.18),
    Place("America/New_York", 42.1, -77.3, 240, 8.5, 12.5, 11.0, 0.40),
    Place("Australia/Adelaide", -34.9, 138.6, 48, 16.8, 6.0, 11.0, 0.25),
    Place("America/Bogota", 4.7, -74.1, 2550, 13.5, 0.6, 10.0, 0.50),
    Place("Asia/Kolkata", 17.4, 78.5, 540, 26.5, 5.0, 11.0, 0.20),
    Place("Europe/London", 51.2, 0.6, 60, 10.5, 6.5, 8.5, 0.42),
    Place("America/Los_Angeles", 36.8, -119.8, 100, 17.5, 9.5, 15.0, 0.12),
    Place("Pacific/Auckland", -41.3, 173.1, 20, 13.0, 5.0, 9.5, 0.30),
    Place("Africa/Nairobi", -1.3, 36.8, 1700, 18.8, 1.5, 11.5, 0.30),
    Place("America/Santiago", -34.2, -70.7, 480, 14.5, 7.0, 15.0, 0.12),
    Place("Europe/Berlin", 52.4, 13.1, 40, 9.8, 9.5, 9.5, 0.40),
    Place("Asia/Kathmandu", 27.7, 85.3, 1350, 18.5, 7.0, 12.0, 0.35),
    Place("America/Denver", 39.1, -108.5, 1420, 11.5, 13.0, 15.5, 0.20),
    Place("Africa/Johannesburg", -33.9, 18.9, 130, 16.5, 5.0, 11.0, 0.25),
    Place("Pacific/Honolulu", 21.3, -157.8, 30, 24.8, 2.0, 8.0, 0.30),
    Place("Europe/Stockholm", 59.6, 17.0, 15, 6.8, 10.5, 8.0, 0.42),
    Place("America/Sao_Paulo", -22.9, -47.1, 680, 21.0, 3.0, 11.0, 0.35),
    Place("Asia/Tokyo", 36.1, 139.4, 30, 15.0, 10.5, 9.5, 0.33),
    Place("America/St_Johns", 47.6, -52.7, 60, 5.0, 9.5, 7.5, 0.50),
    Place("Australia/Lord_Howe", -31.5, 159.1, 10, 19.0, 3.5, 5.0, 0.40),
    Place("Asia/Bangkok", 13.8, 100.5, 5, 28.5, 1.8, 9.5, 0.38),
    Place("Pacific/Chatham", -43.9, -176.5, 40, 11.5, 3.5, 6.0, 0.48),
    Place("Europe/Oslo", 69.6, 18.9, 20, 3.0, 8.0, 5.5, 0.50),
    Place("America/Argentina/Mendoza", -32.9, -68.8, 800, 16.5, 8.5, 14.5, 0.12),
]
