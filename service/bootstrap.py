"""One place puts the real things together: ``build(settings, clock=..., gateway=...) -> Runtime``."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from service.clock import Clock
from service.gateways.interface import Gateway
from service.messages import InboundText, Kept, Listener, MenuInput, Screen
from service.records.base import Store
from service.settings import Settings
