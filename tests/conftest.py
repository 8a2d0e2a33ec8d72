"""What all tests share: no example has a deadline, as a busy machine is no defect."""

from hypothesis import settings

settings.register_profile("house", deadline=None)
settings.load_profile("house")
