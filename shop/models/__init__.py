"""Rows of the base app, a module a noun."""

from shop.models.api_tokens import ApiToken
from shop.models.calendar_feeds import CalendarFeed
from shop.models.cautions import OperationCaution, OperationValue, StepCaution, StepValue
from shop.models.changes import ChangeNumber
from shop.models.customers import Customer, CustomerWord, Vehicle, VehicleWord
from shop.models.entry_links import EntryLink
from shop.models.files import FileRead, FileTask, StoredFile
from shop.models.house import Calendar, ClosedDay, Rate, RuleSet
from shop.models.jobs import Agreement, Job, JobOperation
from shop.models.labour import LabourTemplate, Operation, OperationPair, TemplateStep
from shop.models.opening import OpeningCode
from shop.models.payments import CoreReturn, Payment
from shop.models.people import Member, Shop, User
from shop.models.photographs import Photograph
from shop.models.pins import PhonePin
from shop.models.record import Command, History, Outbox
from shop.models.second_factor import Authenticator, RecoveryCode
from shop.models.sessions import PasswordRequest, PersonSession, SignInTry
from shop.models.webhooks import Webhook, WebhookMessage

__all__ = [
    "Agreement",
    "ApiToken",
    "Authenticator",
    "Calendar",
    "CalendarFeed",
    "ChangeNumber",
    "ClosedDay",
    "Command",
    "CoreReturn",
    "Customer",
    "CustomerWord",
    "EntryLink",
    "FileRead",
    "FileTask",
    "History",
    "Job",
    "JobOperation",
    "LabourTemplate",
    "Member",
    "OpeningCode",
    "Operation",
    "OperationCaution",
    "OperationPair",
    "OperationValue",
    "Outbox",
    "PasswordRequest",
    "Payment",
    "PersonSession",
    "PhonePin",
    "Photograph",
    "Rate",
    "RecoveryCode",
    "RuleSet",
    "Shop",
    "SignInTry",
    "StepCaution",
    "StepValue",
    "StoredFile",
    "TemplateStep",
    "User",
    "Vehicle",
    "VehicleWord",
    "Webhook",
    "WebhookMessage",
]
