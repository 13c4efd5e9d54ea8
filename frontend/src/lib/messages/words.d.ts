// Key -> the facts that its sentence asks for. Written by build/fluent.ts with every build.
export interface Words {
  'account.title': { job: string | number }
  'account.note': { state: string | number }
  'account.rows': null
  'account.total': null
  'account.received': null
  'account.due': null
  'account.paid': null
  'account.over': null
  'account.deposit': { amount: string | number; words: string | number }
  'account.payments': null
  'account.none': null
  'account.payment.card': null
  'account.payment.cash': null
  'account.payment.transfer': null
  'account.payment.other': null
  'account.payment.back': { means: string | number }
  'account.payment.opposite': { means: string | number }
  'account.payment.reference': { reference: string | number }
  'account.payment.by': { name: string | number; at: string | number }
  'account.payment.reversed': null
  'account.record': null
  'account.record.do': null
  'account.record.done': null
  'account.record.released': null
  'account.amount': { currency: string | number }
  'account.day': null
  'account.means': null
  'account.reference': null
  'account.reference.hint': null
  'account.kind': null
  'account.kind.in': null
  'account.kind.back': null
  'account.reason': null
  'account.reverse': null
  'account.reverse.label': { amount: string | number }
  'account.reverse.hint': null
  'account.reverse.do': null
  'account.reverse.done': null
  'account.close': null
  'account.close.sure': null
  'account.close.do': { due: string | number }
  'account.close.back': { due: string | number }
  'account.close.done': { job: string | number }
  'account.close.paper': null
  'account.closed.over': { at: string | number; name: string | number; due: string | number; mark: string | number }
  'account.closed': { at: string | number; name: string | number; due: string | number; mark: string | number }
  'account.core': null
  'account.core.row': { title: string | number; amount: string | number; day: string | number; name: string | number }
  'account.core.title': null
  'account.core.amount': { currency: string | number }
  'account.core.day': null
  'account.core.do': null
  'account.core.recorded': null
  'account.core.reverse.label': { title: string | number }
  'told.title': null
  'told.same': { when: string | number }
  'told.moved': { before: string | number; when: string | number }
  'told.no_date': { before: string | number; why: string | number }
  'told.new_date': { when: string | number }
  'told.none': null
  'told.before': null
  'told.begin': null
  'told.day': null
  'told.day.hint': null
  'told.half': null
  'told.half.morning': null
  'told.half.afternoon': null
  'told.words': null
  'told.words.hint': null
  'told.mail': null
  'told.mail.to': { address: string | number }
  'told.phone': null
  'told.done.mail': null
  'told.done.phone': null
  'told.by.mail': { at: string | number; name: string | number }
  'told.by.phone': { at: string | number; name: string | number }
  'bay.title': null
  'bay.open': null
  'bay.back': null
  'bay.jobs': { n: number }
  'bay.jobs.most': { n: string | number }
  'bay.none': null
  'bay.none.detail': null
  'bay.job': null
  'bay.job.title': { number: string | number; vehicle: string | number }
  'bay.row.vehicle': { vehicle: string | number; plate: string | number }
  'bay.row.since': { customer: string | number; day: string | number }
  'bay.row.list': { kits: string | number; counted: string | number; lines: string | number }
  'bay.row.list.closed': { kits: string | number; counted: string | number; lines: string | number }
  'bay.row.no_list': null
  'bay.customer': null
  'bay.plate': null
  'bay.plate.none': null
  'bay.vin': null
  'bay.hours': null
  'bay.hours.steps': { n: number }
  'bay.opened': null
  'bay.capacity': { name: string | number }
  'bay.litres': { n: string | number }
  'bay.parts': null
  'bay.parts.list': { number: string | number }
  'bay.parts.counted': { counted: string | number; lines: string | number }
  'bay.parts.none': null
  'bay.work': null
  'bay.work.all': { n: number }
  'bay.work.stages': { n: number }
  'bay.work.choose': null
  'bay.reach.steps': null
  'bay.about': null
  'bay.moves': null
  'bay.facts': null
  'bay.work.none': null
  'bay.work.none.detail': null
  'bay.follow_ups': null
  'bay.hand.title': { position: string | number; title: string | number }
  'bay.hand.place': { n: string | number; all: string | number; stage: string | number }
  'bay.hand.steps': null
  'bay.hand.next': { title: string | number }
  'bay.hand.previous': { title: string | number }
  'bay.stage.none': null
  'bay.stage.range': { from: string | number; to: string | number }
  'bay.stage.steps': { n: number; steps: string | number }
  'bay.stage.done': { n: string | number }
  'bay.stage.in_hand': null
  'bay.stage.waits': { n: string | number }
  'bay.stage.for': { kits: string | number }
  'bay.done.do': null
  'bay.done.back': null
  'bay.done.by': { at: string | number; name: string | number }
  'bay.done.told': { position: string | number }
  'bay.step.cautions': { n: number }
  'bay.step.check': null
  'bay.step.added': null
  'bay.step.facts': { code: string | number; skill: string | number }
  'bay.step.facts_after': { n: number; code: string | number; skill: string | number; steps: string | number }
  'bay.step.included': null
  'bay.step.wait': { long: string | number }
  'bay.step.parts': null
  'bay.step.parts.n': { n: number }
  'bay.step.parts.minor': null
  'bay.hazard': { says: string | number }
  'bay.minutes': { n: string | number }
  'bay.days': { n: number }
  'bay.caution': { says: string | number }
  'bay.instructions': null
  'bay.no_return': { position: string | number }
  'bay.hold': { position: string | number }
  'bay.torque': null
  'bay.values': null
  'bay.values.first': null
  'bay.coolant': null
  'bay.coolant.mix': null
  'bay.coolant.row': { after: string | number; target: string | number }
  'bay.coolant.back': null
  'bay.coolant.none': null
  'bay.coolant.none.detail': null
  'bay.coolant.drained': null
  'bay.coolant.drained.note': null
  'bay.coolant.reading.percent': null
  'bay.coolant.reading.celsius': null
  'bay.coolant.note.percent': null
  'bay.coolant.note.celsius': null
  'bay.coolant.percent': { n: string | number }
  'bay.coolant.below': { n: string | number }
  'bay.coolant.read.celsius': null
  'bay.coolant.read.percent': null
  'bay.coolant.to.drained': null
  'bay.coolant.to.reading': null
  'bay.coolant.done': null
  'bay.coolant.measured': null
  'bay.coolant.supposed': null
  'bay.coolant.supposing': null
  'bay.coolant.unmeasured': null
  'bay.coolant.ask': null
  'bay.coolant.fill': null
  'bay.coolant.first': null
  'bay.coolant.in_all': { n: string | number; after: string | number }
  'bay.coolant.drain_all': { n: string | number }
  'bay.coolant.concentrate': null
  'bay.coolant.water': null
  'bay.coolant.drain_more': null
  'bay.coolant.pure.concentrate': null
  'bay.coolant.pure.water': null
  'bay.coolant.premix': null
  'bay.coolant.before': null
  'bay.coolant.caution.hot': null
  'bay.coolant.caution.unknown': null
  'bay.coolant.caution.poison': null
  'bay.coolant.caution.chemistry': null
  'bay.coolant.caution.chemistry.of': { concentrate: string | number }
  'bay.coolant.caution.makers': null
  'bay.coolant.about': null
  'bay.coolant.holds': null
  'bay.coolant.added': null
  'bay.coolant.target': null
  'bay.coolant.unknown': null
  'bay.coolant.scale_for': { chemistry: string | number }
  'bay.how.total': null
  'bay.how.total.once': null
  'bay.how.step': { position: string | number; title: string | number }
  'bay.how.kits': { n: number }
  'bay.how.once': null
  'bay.how.factors': null
  'bay.how.tenths': null
  'app.name': null
  'app.skip': null
  'app.opening': null
  'app.new_version': null
  'app.take_over': null
  'app.nowhere': null
  'app.nowhere.detail': null
  'app.nowhere.back': null
  'day.at': { day: string | number; time: string | number }
  'app.broke': null
  'app.broke.detail': null
  'app.broke.again': null
  'place.nav': null
  'place.counter': null
  'place.parts': null
  'place.bay': null
  'place.office': null
  'role.advisor': null
  'role.parts': null
  'role.technician': null
  'role.manager': null
  'mast.who': { name: string | number; role: string | number }
  'mast.who.label': { name: string | number; role: string | number }
  'sign_in.title': null
  'sign_in.email': null
  'sign_in.password': null
  'sign_in.go': null
  'sign_in.going': null
  'sign_in.code': null
  'sign_in.code.hint': null
  'sign_in.forgotten': null
  'sign_in.owed': null
  'sign_in.again': null
  'sign_in.waiting': { n: number }
  'you.back': null
  'you.title': { name: string | number }
  'you.shops': null
  'you.shops.pick': null
  'you.no_shop': null
  'you.no_shop.detail': null
  'you.paper': null
  'you.paper.device': null
  'you.paper.device.about': null
  'you.paper.light': null
  'you.paper.night': null
  'you.paper.night.about': null
  'you.sign_ins': null
  'you.sign_ins.since': { when: string | number }
  'you.sign_ins.until': { when: string | number }
  'you.sign_ins.here': null
  'you.sign_ins.end': { device: string | number; since: string | number }
  'you.sign_ins.ended': { device: string | number }
  'you.device.phone': null
  'you.device.computer': null
  'you.device.unknown': null
  'you.sign_in': null
  'you.sign_out': null
  'you.sign_out.everywhere': null
  'you.everywhere.ask': null
  'you.everywhere.detail': null
  'password.title': null
  'password.current': null
  'password.new': null
  'password.new.hint': null
  'password.again': null
  'password.differs': null
  'password.go': null
  'password.going': null
  'password.done': null
  'you.sign_out.ask': { n: number }
  'you.sign_out.detail': null
  'you.sign_out.detail_pin': null
  'you.sign_out.stay': null
  'strip.no_signal': null
  'strip.no_signal.waiting': { n: number }
  'strip.waiting': { n: number }
  'strip.needs_you': { n: number }
  'strip.see': null
  'copy.old': { when: string | number }
  'copy.none': null
  'copy.none.detail': null
  'copy.reading': null
  'copy.computing': null
  'copy.again': null
  'problem.offline': null
  'problem.offline.detail': null
  'problem.offline.look': null
  'problem.offline.nothing': null
  'problem.offline.read': null
  'problem.app': null
  'problem.app.detail': null
  'problem.unknown': null
  'problem.unknown.detail': { status: string | number }
  'problem.stale': null
  'problem.stale.detail': null
  'field.missing': null
  'field.day_missing': null
  'field.unchosen': null
  'field.wrong': null
  'field.digits': null
  'field.email': null
  'how.open': null
  'how.open.of': { about: string | number }
  'how.step': null
  'how.figure': null
  'how.result': null
  'do.close': null
  'do.undo': null
  'do.cancel': null
  'since.minutes': { n: string | number }
  'since.hours': { n: string | number }
  'since.days': { n: string | number }
  'unit.hours': { n: string | number }
  'box.carton': { label: string | number }
  'box.loose': null
  'box.bag': { label: string | number }
  'box.bag.loose': { label: string | number }
  'box.bag.loose.alone': null
  'progress.of': { done: string | number; of: string | number }
  'progress.leave': null
  'scan.label': null
  'scan.type': null
  'pad.digits': null
  'pad.erase': null
  'pad.point': null
  'pad.most': { n: string | number }
  'pad.save': { n: string | number }
  'pad.save.none': null
  'state.draft': null
  'state.sent': null
  'state.replaced': null
  'state.accepted': null
  'state.declined': null
  'state.withdrawn': null
  'state.expired': null
  'state.untouched': null
  'state.all_here': null
  'state.short': null
  'state.over': null
  'state.damaged': null
  'state.wrong_part': null
  'state.sealed': null
  'state.count_again': null
  'state.after_closing': null
  'state.beside': null
  'state.on_this_phone': null
  'state.needs_you': null
  'state.may_start': null
  'state.may_start_due': null
  'state.stop_before': null
  'state.do_not_start': null
  'state.comes': null
  'state.waits': null
  'state.supposed': null
  'state.open': null
  'state.running': null
  'state.done': null
  'state.waiting': null
  'state.waiting_for_parts': null
  'state.ready': null
  'state.in_the_bay': null
  'state.in_checks': null
  'state.handed_over': null
  'state.called_off': null
  'state.not_sent': null
  'state.late': null
  'state.come_back': null
  'state.closed': null
  'state.read': null
  'state.in_force': null
  'state.later': null
  'state.taken': null
  'state.refused': null
  'state.must_fix': null
  'state.below_floor': null
  'state.please_check': null
  'state.done_for_you': null
  'keys.title': null
  'keys.hint': null
  'keys.key': null
  'keys.does': null
  'keys.escape': null
  'keys.escape.detail': null
  'keys.help': null
  'keys.off': null
  'keys.find': null
  'keys.back': null
  'keys.undo': null
  'owed.title': null
  'counter.title': null
  'counter.holding': null
  'counter.holding.hint': null
  'counter.find': null
  'counter.results': { q: string | number }
  'counter.results.n': { n: string | number }
  'counter.finding': null
  'counter.others': null
  'counter.results.none': { q: string | number }
  'counter.results.none.detail': null
  'counter.kind.customer': null
  'counter.kind.vehicle': null
  'counter.kind.quote': null
  'counter.kind.kit': null
  'counter.kind.part': null
  'counter.kind.job': null
  'counter.kind.outside': null
  'counter.new': null
  'counter.all': null
  'counter.new.for': { vehicle: string | number }
  'counter.new.kit': null
  'counter.new.part': null
  'counter.quotes.customer': null
  'counter.customer': null
  'counter.quotes.vehicle': null
  'counter.quotes.kit': null
  'counter.quotes.part': null
  'counter.part.unpriced': null
  'counter.new.customer': { q: string | number }
  'counter.asked': null
  'counter.asked.by': { number: string | number; customer: string | number }
  'counter.answers': null
  'counter.follow_up': null
  'counter.rang': null
  'counter.rang.phone': { phone: string | number }
  'counter.rang.group': { number: string | number }
  'counter.rang.no_answer': null
  'counter.rang.thinking': null
  'counter.rang.wants_change': null
  'counter.beyond': null
  'counter.mails': null
  'counter.mail': { number: string | number; to: string | number }
  'counter.laid_aside': null
  'counter.nothing': null
  'counter.nothing.detail': null
  'counter.until': { day: string | number }
  'counter.row': { number: string | number; customer: string | number }
  'counter.row.high': { amount: string | number }
  'counter.row.new': null
  'counter.row.nobody': { number: string | number }
  'counter.month.title': null
  'counter.month': null
  'counter.month.file': null
  'counter.month.workbook': null
  'customer.title': null
  'customer.only': null
  'customer.phone': null
  'customer.email': null
  'customer.address': null
  'customer.empty': null
  'customer.quotes': null
  'customer.change': null
  'customer.vehicles': null
  'customer.vehicles.none': null
  'customer.vehicles.none.detail': null
  'customer.merge': null
  'customer.merge.hint': null
  'customer.merge.find': null
  'customer.merge.none': { q: string | number }
  'customer.merge.stays': null
  'customer.merge.sent': null
  'customer.merge.do': null
  'customer.merge.done': { name: string | number }
  'customer.owner.change': null
  'customer.owner.change.of': { vehicle: string | number }
  'customer.owner.since': null
  'customer.owner.hint': null
  'customer.owner.save': null
  'customer.owner.done': { vehicle: string | number; name: string | number }
  'customer.owner.before': { before: string | number; after: string | number; words: string | number }
  'customer.owner.first': { after: string | number; words: string | number }
  'job.state.in_bay': { day: string | number }
  'job.state.handed_over': { day: string | number }
  'job.state.not_begun': null
  'job.odometer.in': { reading: string | number }
  'job.odometer.out': { reading: string | number }
  'job.do.in_bay': null
  'job.do.hand_over': null
  'job.do.undo': null
  'job.save.in_bay': null
  'job.save.hand_over': null
  'job.save.undo': null
  'job.day': null
  'job.odometer': null
  'job.odometer.hint': null
  'job.because': null
  'job.because.hint': null
  'job.done.in_bay': { number: string | number }
  'job.done.hand_over': { number: string | number }
  'job.done.undo': { number: string | number }
  'job.do.call_off': null
  'job.save.call_off': null
  'job.done.call_off': { number: string | number }
  'job.state.called_off': { day: string | number; reason: string | number }
  'job.because.call_off': null
  'job.happened': null
  'job.happened.times': { n: number }
  'job.happened.beyond': { n: number }
  'job.happened.hours': { title: string | number; hours: string | number }
  'job.happened.row': { n: number; name: string | number; at: string | number }
  'job.happened.do': null
  'job.happened.do.label': { event: string | number }
  'job.happened.count': null
  'job.happened.note': null
  'job.happened.save': null
  'job.happened.more': { n: number; cap: string | number }
  'job.happened.save.more': { n: string | number }
  'job.happened.done': { event: string | number }
  'job.happened.undo': null
  'job.happened.undo.label': { event: string | number }
  'job.happened.undone': null
  'job.photograph': null
  'job.photograph.of': { n: string | number; event: string | number }
  'job.photograph.done': null
  'job.photograph.seen': null
  'job.photograph.show': null
  'job.photograph.show.of': { n: string | number; event: string | number }
  'job.photograph.hide': null
  'job.photograph.hide.of': { n: string | number; event: string | number }
  'job.photograph.told.shown': null
  'job.photograph.told.hidden': null
  'job.photograph.unreadable': null
  'job.extra.title': null
  'job.back': null
  'job.back.none': null
  'job.back.quantity': { unit: string; quantity: string | number }
  'job.owed': null
  'job.owed.received': { amount: string | number }
  'job.owed.outside': { title: string | number }
  'job.labour': null
  'job.labour.rest': null
  'job.labour.rest.steps': { n: number }
  'job.labour.hours': { hours: string | number; agreed: string | number }
  'job.labour.correct': null
  'job.labour.correct.of': { title: string | number }
  'job.labour.worked': null
  'job.labour.worked.hint': { agreed: string | number }
  'job.labour.reason': null
  'job.labour.reason.hint': null
  'job.labour.save': null
  'job.labour.told': { title: string | number }
  'labour.find': null
  'labour.find.hint': null
  'labour.none': { q: string | number }
  'labour.hours.of': { skill: string | number; hours: string | number }
  'labour.by_hours': null
  'labour.title': null
  'labour.hours': null
  'labour.skill': null
  'office.title': null
  'office.take_in': null
  'office.take_in.order': null
  'office.kind.rules': null
  'office.kind.labour': null
  'office.kind.suppliers': null
  'office.kind.consumables': null
  'office.kind.kit': null
  'office.kind.packing_slip': null
  'office.kind.kits': null
  'office.kind.customers': null
  'office.kind.vehicles': null
  'office.needs.rules': null
  'office.needs.labour': null
  'office.needs.suppliers': null
  'office.needs.consumables': null
  'office.needs.kit': null
  'office.needs.packing_slip': null
  'office.needs.kits': null
  'office.needs.customers': null
  'office.needs.vehicles': null
  'office.last': { when: string | number }
  'office.only.rules': null
  'office.only.counter': null
  'office.only.stores': null
  'office.headings': null
  'office.headings.about': null
  'office.headings.note': null
  'office.headings.find': null
  'office.headings.find.hint': null
  'office.headings.count': { n: number }
  'office.headings.sheet': { names: string | number }
  'office.headings.also': { names: string | number }
  'office.headings.words': { words: string | number }
  'office.headings.needed.every_row': null
  'office.headings.needed.column': null
  'office.headings.example': { cell: string | number }
  'office.headings.not_found': { q: string | number }
  'office.headings.not_found.detail': null
  'office.files': null
  'office.files.none': null
  'office.files.none.detail': null
  'office.file.by': { name: string | number; who: string | number }
  'office.kits': null
  'office.kits.find': null
  'office.kits.find.hint': null
  'office.kits.many': { n: string | number }
  'office.kits.none': null
  'office.kits.none.detail': null
  'office.kits.add': null
  'office.kits.archived': null
  'office.kits.current': null
  'office.kits.none_archived': null
  'office.kits.none_archived.detail': null
  'office.kits.not_found': { q: string | number }
  'office.kits.not_found.detail': null
  'office.kit.bare': null
  'office.kit.parts': { n: number }
  'office.kit.parts.in_cartons': { parts: number; cartons: number }
  'office.kit.revision': { n: string | number }
  'office.new.title.rules': null
  'office.new.title.labour': null
  'office.new.title.suppliers': null
  'office.new.title.consumables': null
  'office.new.title.kit': null
  'office.new.title.packing_slip': null
  'office.new.title.kits': null
  'office.new.title.customers': null
  'office.new.title.vehicles': null
  'office.new.note': null
  'office.new.unknown': null
  'office.new.back': null
  'office.new.supplier': null
  'office.new.supplier.hint': null
  'office.file.original': null
  'office.out': null
  'office.out.note': null
  'office.out.quotes': null
  'office.out.jobs': null
  'office.out.owed': null
  'office.out.people': null
  'office.out.whole': null
  'office.out.workbook': null
  'office.lists.detail': null
  'office.lists.example.detail': null
  'office.lists.rules': null
  'office.lists.workbook': null
  'office.lists.csv': null
  'office.lists.example': null
  'office.new.choose': null
  'office.new.choose.again': null
  'office.new.drop': null
  'office.new.drop.over': null
  'office.new.drop.detail': { mib: string | number; rows: string | number }
  'office.new.read': null
  'office.new.read.first': null
  'office.size': { n: string | number }
  'office.not_yours': null
  'office.too_large': null
  'office.too_large.detail': { mib: string | number }
  'office.gone': null
  'office.gone.detail': null
  'office.reading': { name: string | number }
  'office.reading.so_far': { n: number }
  'office.taking': null
  'office.task.waits.read': null
  'office.task.waits.take_in': null
  'office.task.opens': { name: string | number }
  'office.task.read': { n: number; done: string | number }
  'office.task.take_in': { n: number; done: string | number }
  'office.task.writes': { n: number }
  'office.task.failed.read': null
  'office.task.failed.take_in': null
  'office.file': null
  'office.file.read': null
  'office.file.taken': null
  'office.file.note': { name: string | number; kind: string | number }
  'office.file.will': null
  'office.file.became': null
  'office.file.rows': null
  'office.file.rows.good': { n: string | number }
  'office.file.rows.bad': { good: string | number; bad: string | number }
  'office.file.rows.none': null
  'office.file.rows.unread': null
  'office.file.skipped': null
  'office.file.skipped.n': { n: number }
  'office.file.skipped.none': null
  'office.file.skipped.rows': null
  'office.file.by_whom': null
  'office.file.taken_at': null
  'office.file.supplier': null
  'office.columns': null
  'office.columns.none': null
  'office.columns.is': { column: string | number }
  'office.columns.change': null
  'office.columns.leave': null
  'office.columns.required': { field: string | number }
  'office.columns.others': null
  'office.columns.nothing': null
  'office.columns.label': { column: string | number; heading: string | number }
  'office.columns.label.sheet': { sheet: string | number; column: string | number; heading: string | number }
  'office.columns.missing': { fields: string | number }
  'office.columns.letter': { column: string | number; holds: string | number }
  'office.columns.typed': null
  'office.columns.hint.letters': null
  'office.columns.hint': null
  'office.columns.hint.none': null
  'office.columns.read': null
  'office.columns.same': null
  'office.columns.file': null
  'office.list': null
  'office.list.taken': null
  'office.list.lines': { n: number }
  'office.list.rows': { n: number }
  'office.list.carton': { carton: string | number }
  'office.list.no_carton': null
  'office.list.bag': { bag: string | number }
  'office.list.no_bag': null
  'office.list.fine': null
  'office.list.left_out': null
  'office.list.left_out.n': { words: string | number; n: string | number }
  'office.list.untitled': null
  'office.list.only': { when: string | number }
  'office.list.every': null
  'office.list.corrected': { field: string | number }
  'office.list.empty': null
  'office.list.change': null
  'office.list.change.row': { row: string | number }
  'office.list.undo': null
  'office.list.undo.row': { row: string | number }
  'office.list.undo.field': { field: string | number; row: string | number }
  'office.list.undo.last': null
  'office.list.row': { row: string | number }
  'office.list.put': { text: string | number }
  'office.list.put.none': null
  'office.list.quantity': null
  'office.list.when': null
  'office.list.leave_out': { row: string | number }
  'office.list.leave_out.n': { n: string | number }
  'office.list.same': { n: number }
  'office.list.more': { n: number }
  'office.list.move': null
  'office.list.first': null
  'office.list.last': null
  'office.list.to_carton': null
  'office.list.to_bag': null
  'office.list.move.n': { n: number }
  'office.list.ask': null
  'office.list.from_file': null
  'office.list.kit_missing': null
  'office.list.kept': null
  'office.problems': null
  'office.problems.none': null
  'office.problems.none.detail': null
  'office.problems.all': { n: string | number }
  'office.problems.must_fix': { n: string | number }
  'office.problems.please_check': { n: string | number }
  'office.problems.done_for_you': { n: string | number }
  'office.problems.content': null
  'office.problems.whole': null
  'office.problems.save': null
  'office.problems.file': { name: string | number }
  'office.problems.head.weight': null
  'office.problems.head.sheet': null
  'office.problems.head.cell': null
  'office.problems.head.words': null
  'office.problems.head.remedy': null
  'office.problems.head.says': null
  'office.next': null
  'office.next.fix': { n: number }
  'office.next.check': { n: number }
  'office.do.take_in': { n: number }
  'office.do.blocked': { n: number }
  'office.do.asked': { n: number }
  'office.do.empty': null
  'office.do.corrected': null
  'office.do.discard': null
  'office.discard.ask': { name: string | number }
  'office.discard.detail': null
  'office.discarded': { name: string | number }
  'office.do.another': null
  'office.do.kit': null
  'office.do.kits': null
  'office.do.job': null
  'office.do.rules': null
  'office.done': { name: string | number }
  'office.kit': null
  'office.kit.file': { n: string | number; name: string | number }
  'office.kit.file.gone': { n: string | number; name: string | number }
  'office.kit.files': { n: number }
  'office.kit.order_number': null
  'office.kit.out': null
  'office.kit.out.note': null
  'office.kit.supplier': null
  'office.kit.supplier.none': null
  'office.kit.returnable': null
  'office.kit.not_returnable': null
  'office.kit.contents': null
  'office.kit.contents.revision': { n: string | number }
  'office.kit.contents.none': null
  'office.kit.versions': null
  'office.kit.versions.against': { number: string | number; before: string | number }
  'office.kit.versions.earlier': null
  'office.kit.versions.later': null
  'office.kit.versions.same': null
  'office.kit.versions.all': { n: string | number }
  'office.kit.labour': null
  'office.kit.labour.none': null
  'office.kit.template': null
  'office.kit.template.hint': null
  'office.kit.template.version': { code: string | number; n: string | number }
  'office.kit.fitted': null
  'office.kit.fitted.hint': null
  'office.kit.title': null
  'office.kit.code': null
  'office.kit.code.hint': null
  'office.kit.price': null
  'office.kit.hours': null
  'office.kit.lead_days': null
  'office.kit.figures': null
  'office.kit.cost': null
  'office.kit.cost.whole': null
  'office.kit.cost.hint': null
  'office.kit.cost.counts': null
  'office.kit.cost.offered': null
  'office.kit.cost.save': null
  'office.kit.for': null
  'office.kit.for.hint': null
  'office.kit.change': null
  'office.kit.save': null
  'office.kit.saved': { code: string | number }
  'office.kit.saved.version': { code: string | number; number: string | number }
  'office.kit.new': null
  'office.kit.new.later': null
  'office.kit.add': null
  'office.kit.copy.takes': null
  'office.kit.archived': { code: string | number }
  'office.kit.is_archived': null
  'office.kit.own': null
  'office.kit.fits': null
  'office.kit.fits.all': null
  'office.kit.empty': null
  'office.kit.empty.detail': null
  'office.kit.empty.do': null
  'office.kit.empty.count': null
  'office.kit.more': null
  'office.kit.more.bags': null
  'office.kit.more.labour': null
  'office.kit.more.steps': { n: number }
  'office.kit.more.needs': null
  'office.kit.find': null
  'office.kit.find.hint': null
  'office.kit.find.none': { q: string | number }
  'office.kit.find.none.detail': null
  'office.kit.lines': { n: number }
  'office.kit.when': { when: string | number }
  'office.kit.ships.when': null
  'office.kit.quantity': { unit: string; n: string | number }
  'office.kit.needs': null
  'office.kit.needs.none': null
  'office.need.per_fastener': { quantity: string | number; unit: string | number; of: string | number }
  'office.need.bead': { quantity: string | number; of: string | number }
  'office.need.of_capacity': { of: string | number }
  'office.need.of_capacity.share': { quantity: string | number; of: string | number }
  'office.need.refill': { of: string | number; quantity: string | number; unit: string | number }
  'office.need.refill_water': { of: string | number; quantity: string | number; unit: string | number }
  'office.need.charge.pack': null
  'office.need.charge.used': null
  'office.need.charge.supplies': null
  'office.kit.reused': null
  'office.kit.reused.none': null
  'office.kit.reused.where': { off: string | number; back: string | number }
  'office.kit.outside': null
  'office.kit.outside.days': { n: number }
  'office.kit.outside.needed': { step: string | number }
  'office.kit.outside.rounds': { n: number }
  'office.kit.outside.they_need': { words: string | number }
  'office.house': null
  'office.programs': null
  'office.programs.about': null
  'office.people.open': null
  'office.people.open.about': null
  'office.own': null
  'office.own.about': null
  'office.own.only': null
  'office.own.note': null
  'office.own.name': null
  'office.own.address': null
  'office.own.phone': null
  'office.own.email': null
  'office.own.registration': null
  'office.own.registration.hint': null
  'office.own.tax_number': null
  'office.own.fixed': { currency: string | number; zone: string | number }
  'office.own.save': null
  'office.own.saved': null
  'office.rules': null
  'office.rules.open': null
  'office.rules.open.about': null
  'office.hours': null
  'office.hours.about': null
  'office.rules.only': null
  'office.rules.since': { day: string | number }
  'office.rules.history': null
  'office.rules.history.note': null
  'office.rules.by': { name: string | number; when: string | number }
  'office.rules.by_command': { when: string | number }
  'office.rules.file': null
  'office.rules.import': null
  'office.rules.changes': null
  'office.rules.before': null
  'office.rules.after': null
  'office.rules.no_side': null
  'office.rules.no_rows': null
  'office.rules.rest': null
  'office.rules.none': null
  'office.rules.none.detail': null
  'office.rules.none.do': null
  'office.rules.change': { section: string | number }
  'office.rules.change.short': null
  'office.rules.now': { words: string | number; now: string | number }
  'office.rules.row': { table: string | number; n: string | number }
  'office.rules.remove_row': { n: string | number }
  'office.rules.add_row': { table: string | number }
  'office.example': null
  'office.example.quote': null
  'office.example.now': null
  'office.example.then': null
  'office.rules.example.lines': { n: number }
  'office.rules.example.changes': null
  'office.example.none': null
  'office.example.reading': null
  'office.example.waits': null
  'office.rules.from': null
  'office.rules.day': null
  'office.rules.day.hint': null
  'office.rules.later_stays': { set: string | number; day: string | number }
  'office.rules.later_stays.open': { set: string | number }
  'office.rules.index': null
  'office.rules.save': null
  'office.rules.save.first': null
  'office.rules.leave': null
  'office.rules.saved': { set: string | number; day: string | number }
  'office.stock': null
  'office.stock.note': null
  'office.operations': null
  'office.operations.about': null
  'office.operations.find': null
  'office.operations.find.hint': null
  'office.operations.archived': null
  'office.operations.current': null
  'office.operations.add': null
  'office.operations.none': null
  'office.operations.none.detail': null
  'office.operations.none_archived': null
  'office.operations.none_archived.detail': null
  'office.operations.not_found': { q: string | number }
  'office.operations.not_found.detail': null
  'office.operations.more': { n: string | number }
  'office.operations.only': null
  'office.operation': null
  'office.operation.new': null
  'office.operation.copy_of': { code: string | number }
  'office.operation.keeps': null
  'office.operation.used': { templates: string | number }
  'office.operation.unused': null
  'office.operation.code': null
  'office.operation.code.hint': null
  'office.operation.title': null
  'office.operation.skill': null
  'office.operation.skill.hint': null
  'office.operation.hours': null
  'office.operation.hours.hint': null
  'office.operation.sharing': null
  'office.operation.sharing.once': null
  'office.operation.sharing.each': null
  'office.operation.wait': null
  'office.operation.wait.hint': null
  'office.operation.vehicle': null
  'office.operation.exposed': null
  'office.operation.no_return': null
  'office.operation.mobile_again': null
  'office.operation.hold_point': null
  'office.operation.wheels_off': null
  'office.operation.pairs': null
  'office.operation.includes': null
  'office.operation.includes.hint': null
  'office.operation.overlaps': null
  'office.operation.overlaps.hint': null
  'office.operation.bay': null
  'office.operation.cautions': null
  'office.operation.cautions.hint': null
  'office.operation.torques': null
  'office.operation.torques.hint': null
  'office.operation.others': null
  'office.operation.others.hint': null
  'office.operation.save': null
  'office.operation.save.first': null
  'office.operation.add': null
  'office.operation.saved': { code: string | number }
  'office.operation.added': { code: string | number }
  'office.operation.copy': null
  'office.operation.archive': null
  'office.operation.archived': { code: string | number }
  'office.operation.back': null
  'office.operation.is_back': { code: string | number }
  'office.operation.is_archived': null
  'office.operation.to_list': null
  'office.operation.yes': null
  'office.operation.nothing': null
  'office.templates': null
  'office.templates.about': null
  'office.templates.find': null
  'office.templates.find.hint': null
  'office.templates.archived': null
  'office.templates.current': null
  'office.templates.add': null
  'office.templates.row': { n: number; number: string | number }
  'office.templates.none': null
  'office.templates.none.detail': null
  'office.templates.none_archived': null
  'office.templates.none_archived.detail': null
  'office.templates.not_found': { q: string | number }
  'office.templates.not_found.detail': null
  'office.templates.more': { n: string | number }
  'office.template': null
  'office.template.new': null
  'office.template.only_managers': null
  'office.template.keeps': null
  'office.template.kits': { n: number }
  'office.template.kits_still': { n: number }
  'office.template.archived': { code: string | number }
  'office.template.earlier': null
  'office.template.code': null
  'office.template.code.hint': null
  'office.template.find': null
  'office.template.find.hint': null
  'office.template.find.none': null
  'office.template.waits': { n: number; steps: string | number }
  'office.template.includes': { code: string | number }
  'office.template.overlaps': { code: string | number; hours: string | number }
  'office.template.at_once': null
  'office.template.only': { when: string | number }
  'office.template.picture': null
  'office.template.picture.hint': null
  'office.template.picture.slide': null
  'office.template.box': { n: number; step: string | number; time: string | number; title: string | number; steps: string | number }
  'office.template.box.includes': { step: string | number }
  'office.template.box.part': { step: string | number }
  'office.template.box.overlaps': { step: string | number; hours: string | number }
  'office.template.picture.includes': { step: string | number; title: string | number; other: string | number; what: string | number }
  'office.template.picture.includes.line': null
  'office.template.picture.overlaps': { step: string | number; title: string | number; other: string | number; what: string | number; hours: string | number }
  'office.template.picture.overlaps.line': null
  'office.template.loop': { steps: string | number }
  'office.template.no_stage': null
  'office.template.up': null
  'office.template.up.one': { code: string | number }
  'office.template.down': null
  'office.template.down.one': { code: string | number }
  'office.template.change': null
  'office.template.change.one': { code: string | number }
  'office.template.remove': null
  'office.template.remove.one': { code: string | number }
  'office.template.after': null
  'office.template.after.hint': null
  'office.template.hours': null
  'office.template.hours.hint': null
  'office.template.stage': null
  'office.template.when': null
  'office.template.when.hint': null
  'office.template.add_step': null
  'office.template.empty': null
  'office.template.empty.detail': null
  'office.template.save': null
  'office.template.save_new': null
  'office.template.saved': { code: string | number; number: string | number }
  'office.template.to_list': null
  'office.template.changes': null
  'office.template.first': null
  'office.template.versions': null
  'office.consumables': null
  'office.consumables.about': null
  'office.consumables.find': null
  'office.consumables.find.hint': null
  'office.consumables.archived': null
  'office.consumables.current': null
  'office.consumables.add': null
  'office.consumables.packs': { n: number; sizes: string | number; unit: string | number }
  'office.consumables.no_packs': null
  'office.consumables.none': null
  'office.consumables.none.detail': null
  'office.consumables.none_archived': null
  'office.consumables.none_archived.detail': null
  'office.consumables.not_found': { q: string | number }
  'office.consumables.not_found.detail': null
  'office.consumables.more': { n: string | number }
  'office.consumables.only': null
  'office.consumable': null
  'office.consumable.new': null
  'office.consumable.copy_of': { name: string | number }
  'office.consumable.used': { kits: string | number }
  'office.consumable.unused': null
  'office.consumable.measured': { unit: string | number }
  'office.consumable.keeps': null
  'office.consumable.facts': null
  'office.consumable.family': null
  'office.consumable.family.hint': null
  'office.consumable.specification': null
  'office.consumable.specification.hint': null
  'office.consumable.form': null
  'office.consumable.form.hint': null
  'office.consumable.tax_class': null
  'office.consumable.tax_class.hint': null
  'office.consumable.shelf_life': null
  'office.consumable.shelf_life.hint': null
  'office.consumable.hazard': null
  'office.consumable.hazard.hint': null
  'office.consumable.unit': null
  'office.consumable.unit.hint': null
  'office.consumable.save': null
  'office.consumable.add': null
  'office.consumable.move_rules': null
  'office.consumable.saved': { name: string | number }
  'office.consumable.added': { name: string | number }
  'office.consumable.archived': { name: string | number }
  'office.consumable.is_back': { name: string | number }
  'office.consumable.to_list': null
  'office.packs': null
  'office.packs.note': null
  'office.pack.size': { size: string | number; unit: string | number }
  'office.pack.codes': { codes: string | number }
  'office.pack.is_archived': null
  'office.pack.new': null
  'office.pack.add': null
  'office.pack.none_while_archived': null
  'office.pack.first': null
  'office.pack.number': null
  'office.pack.number.hint': null
  'office.pack.title': null
  'office.pack.title.hint': null
  'office.pack.pack_size': null
  'office.pack.pack_size.hint': null
  'office.pack.pack_size.in': { unit: string | number }
  'office.pack.sells': null
  'office.pack.sells.hint': null
  'office.pack.code': null
  'office.pack.code.hint': null
  'office.pack.bought': null
  'office.pack.bought.note': null
  'office.pack.supplier': null
  'office.pack.supplier.hint': null
  'office.pack.cost': null
  'office.pack.cost.hint': null
  'office.pack.currency': null
  'office.pack.currency.hint': null
  'office.pack.duty': null
  'office.pack.duty.hint': null
  'office.pack.freight': null
  'office.pack.freight.hint': null
  'office.pack.brokerage': null
  'office.pack.brokerage.hint': null
  'office.pack.valid_until': null
  'office.pack.valid_until.hint': null
  'office.pack.lead_days': null
  'office.pack.lead_days.hint': null
  'office.pack.since': { day: string | number }
  'office.pack.keeps': null
  'office.pack.save': null
  'office.pack.add_it': null
  'office.pack.saved': { number: string | number }
  'office.pack.added': { number: string | number }
  'office.pack.archived': { number: string | number }
  'office.pack.to_consumable': null
  'office.replaced': null
  'office.replaced.about': null
  'office.replaced.find': null
  'office.replaced.find.hint': null
  'office.replaced.pair': { number: string | number; newer: string | number }
  'office.replaced.none': null
  'office.replaced.none.detail': null
  'office.replaced.not_found': { q: string | number }
  'office.replaced.not_found.detail': null
  'office.replaced.more': { n: string | number }
  'office.replaced.new': null
  'office.replaced.only': null
  'office.replaced.number': null
  'office.replaced.number.hint': null
  'office.replaced.newer': null
  'office.replaced.newer.hint': null
  'office.replaced.check': null
  'office.replaced.add': null
  'office.replaced.added': { newer: string | number; number: string | number }
  'office.replaced.to_list': null
  'office.replaced.old': { number: string | number }
  'office.replaced.now': { newer: string | number }
  'office.replaced.take_back': null
  'office.replaced.taken_back': { number: string | number }
  'office.replaced.again': null
  'office.replaced.gone': null
  'office.replaced.gone.detail': null
  'office.suppliers': null
  'office.suppliers.about': null
  'office.suppliers.find': null
  'office.suppliers.find.hint': null
  'office.suppliers.archived': null
  'office.suppliers.current': null
  'office.suppliers.files': null
  'office.suppliers.none_archived': null
  'office.suppliers.none_archived.detail': null
  'office.suppliers.none': null
  'office.suppliers.none.detail': null
  'office.suppliers.not_found': { q: string | number }
  'office.suppliers.not_found.detail': null
  'office.suppliers.more': { n: string | number }
  'office.supplier': null
  'office.supplier.new': null
  'office.supplier.add': null
  'office.supplier.added': { name: string | number }
  'office.supplier.their_currency': null
  'office.supplier.their_currency.hint': null
  'office.supplier.only': null
  'office.supplier.name': null
  'office.supplier.name.hint': null
  'office.supplier.contact': null
  'office.supplier.contact.hint': null
  'office.supplier.lead_days': null
  'office.supplier.lead_days.hint': null
  'office.supplier.days': { n: number }
  'office.supplier.archive': null
  'office.supplier.archived': { name: string | number }
  'office.supplier.is_archived': null
  'office.supplier.back': null
  'office.supplier.is_back': { name: string | number }
  'office.supplier.no_contact': null
  'office.supplier.currency': { currency: string | number }
  'office.supplier.save': null
  'office.supplier.save.first': null
  'office.supplier.saved': { name: string | number }
  'office.supplier.to_list': null
  'office.shipment': null
  'office.shipment.note': null
  'office.shipment.paste': null
  'office.shipment.paste.hint': null
  'office.shipment.freight': { currency: string | number }
  'office.shipment.freight.one': null
  'office.shipment.brokerage': { currency: string | number }
  'office.shipment.brokerage.one': null
  'office.shipment.part': null
  'office.shipment.cost': null
  'office.shipment.of_one': null
  'office.shipment.times': { n: string | number; number: string | number }
  'office.shipment.read': null
  'office.shipment.save': null
  'office.shipment.saved': { n: number }
  'office.supplier.taught': null
  'office.supplier.taught.note': null
  'office.supplier.taught.none': null
  'office.supplier.taught.none.detail': null
  'office.supplier.column': { was: string | number; name: string | number }
  'office.supplier.answer': { name: string | number; text: string | number }
  'office.supplier.fact': { name: string | number; text: string | number }
  'office.supplier.text': { was: string | number; text: string | number }
  'office.supplier.left_out': { was: string | number }
  'office.supplier.file': { kind: string | number }
  'office.supplier.file_field': { kind: string | number; name: string | number }
  'office.supplier.forget': null
  'office.supplier.forget.one': { what: string | number }
  'office.supplier.forgotten': null
  'office.rates': null
  'office.rates.about': null
  'office.rates.note': null
  'office.rates.none': null
  'office.rates.none.detail': null
  'office.rates.line': { currency: string | number; rate: string | number; own: string | number }
  'office.rates.in_force': { day: string | number }
  'office.rates.coming': { day: string | number }
  'office.rates.earlier': { day: string | number }
  'office.rates.add': null
  'office.rates.currency': null
  'office.rates.currency.hint': null
  'office.rates.rate': null
  'office.rates.rate.hint': { own: string | number }
  'office.rates.valid_from': null
  'office.rates.valid_from.hint': null
  'office.rates.added': { currency: string | number }
  'office.rates.only': null
  'opening.title': null
  'opening.note': null
  'opening.code': null
  'opening.code.hint': null
  'opening.workshop': null
  'opening.workshop.note': null
  'opening.name': null
  'opening.address': null
  'opening.phone': null
  'opening.email': null
  'opening.registration': null
  'opening.registration.hint': null
  'opening.place': null
  'opening.currency': null
  'opening.currency.hint': null
  'opening.zone': null
  'opening.language': null
  'opening.manager': null
  'opening.manager.note': null
  'opening.manager.name': null
  'opening.manager.email': null
  'opening.password': null
  'opening.password.hint': null
  'opening.password.again': null
  'opening.rules': null
  'opening.rules.note': null
  'opening.go': null
  'opening.going': null
  'quote.outside': null
  'quote.outside.sold': null
  'quote.outside.earlier': null
  'quote.outside.what': null
  'quote.outside.firm': null
  'quote.outside.days': null
  'quote.outside.days.hint': null
  'quote.outside.starts': null
  'quote.outside.acceptance': null
  'quote.outside.needed': null
  'quote.outside.no_step': null
  'quote.outside.they_do': null
  'quote.outside.they_do.hint': null
  'quote.outside.they_need': null
  'quote.outside.reference': null
  'quote.outside.rounds': null
  'quote.outside.rounds.hint': null
  'quote.outside.per_round': null
  'quote.outside.per_round.no': null
  'quote.outside.per_round.yes': null
  'quote.outside.we_warrant': null
  'quote.outside.rounds.sold': { n: number }
  'quote.outside.warranty': null
  'quote.outside.warranty.hint': null
  'quote.outside.private': null
  'quote.outside.cost': null
  'quote.outside.cost.how': { cost: string | number; markup: string | number; handling: string | number }
  'quote.outside.markup': null
  'quote.outside.handling': null
  'quote.outside.more': null
  'quote.kits_outside': null
  'quote.kits_outside.by': { title: string | number; firm: string | number }
  'quote.kits_outside.kit': { letter: string | number }
  'quote.kits_outside.kit.rounds': { n: number; letter: string | number }
  'quote.kits_outside.add.label': { title: string | number }
  'quote.kits_outside.change.label': { title: string | number }
  'quote.kits_outside.no_days': null
  'quote.kits_outside.from_acceptance': { n: number }
  'quote.kits_outside.from_step': { n: number; step: string | number }
  'owed.out': null
  'owed.out.parties': { firm: string | number; customer: string | number; plate: string | number }
  'owed.out.parties.no_plate': { firm: string | number; customer: string | number }
  'owed.out.no_contact': { firm: string | number }
  'owed.out.asked': null
  'owed.out.asked.done': { title: string | number }
  'owed.no_phone': null
  'owed.cores': null
  'owed.money': null
  'owed.nothing': null
  'owed.nothing.detail': null
  'parts.title': null
  'parts.open': null
  'parts.open.none': null
  'parts.open.none.detail': null
  'parts.closed': null
  'parts.more': null
  'parts.phone': null
  'parts.row': { customer: string | number; vehicle: string | number }
  'parts.row.of': { n: string | number }
  'pull.title': { job: string | number }
  'pull.counted': { n: string | number; of: string | number }
  'pull.n.counted': { n: string | number }
  'pull.n.count_again': { n: string | number }
  'pull.n.wrong_part': { n: number }
  'pull.n.damaged': { n: string | number }
  'pull.n.short': { n: string | number }
  'pull.n.over': { n: string | number }
  'pull.n.not_counted': { n: string | number }
  'pull.n.late': { n: string | number }
  'pull.n.sealed': { n: string | number }
  'pull.n.all_here': null
  'pull.n.all_here.holds': { holds: string | number }
  'pull.scan': null
  'pull.filter': null
  'pull.filter.all': null
  'pull.filter.left': null
  'pull.filter.differences': null
  'pull.filter.again': null
  'pull.filter.again.none': null
  'pull.filter.again.none.detail': null
  'pull.filter.all.again': null
  'pull.filter.left.none': null
  'pull.filter.left.none.detail': null
  'pull.filter.differences.none': null
  'pull.filter.differences.none.detail': null
  'pull.sought': { n: number; q: string | number }
  'pull.sought.none': { q: string | number }
  'pull.unknown.detail': null
  'pull.unknown.words': null
  'pull.unknown.none': null
  'pull.unknown.more': { n: number }
  'pull.kit': { letter: string | number; kit: string | number }
  'pull.kit.short': { letter: string | number }
  'pull.kit.copy': { kit: string | number; copy: string | number; of: string | number }
  'pull.shelf': null
  'pull.reused': null
  'pull.reused.back': { operation: string | number }
  'pull.lines': { n: number }
  'pull.bags': { n: number }
  'pull.carton.holds': { lines: string | number; bags: string | number }
  'pull.left': { n: string | number }
  'pull.list': null
  'pull.index': null
  'pull.index.bag': null
  'pull.start': { n: number }
  'pull.start.show': null
  'pull.next': { place: string | number }
  'pull.next.bag': { label: string | number }
  'pull.next.shelf': null
  'pull.left.all': { n: string | number; of: string | number }
  'pull.of': { n: string | number }
  'pull.of.measure': { measure: string | number }
  'pull.bought': { quantity: string | number; unit: string | number }
  'pull.measure': { quantity: string | number; unit: string | number }
  'pull.sets': { n: number }
  'pull.pairs': { n: number }
  'pull.stops': { operation: string | number }
  'pull.needed_at': { operation: string | number }
  'pull.operation': { position: string | number; title: string | number }
  'pull.either': { low: string | number; total: string | number }
  'pull.again.detail': { counts: string | number }
  'pull.again.same': { counts: string | number }
  'pull.again.impossible': { counts: string | number }
  'pull.again.counted': { who: string | number; n: string | number }
  'pull.again.more': { who: string | number; n: string | number }
  'pull.how.stands': null
  'pull.how.apart': null
  'pull.how.numbers': null
  'pull.how.counted': { who: string | number }
  'pull.how.more': { who: string | number }
  'pull.how.damaged': { n: string | number; damaged: string | number }
  'pull.how.strangers': { one: string | number; other: string | number }
  'pull.how.least': null
  'pull.how.most': null
  'pull.how.you': null
  'pull.you': null
  'pull.recount': null
  'pull.figure.more': { n: string | number }
  'pull.figure.damaged': { n: string | number; damaged: string | number }
  'pull.figure.sum': { sum: string | number; total: string | number }
  'pull.others.count': { who: string | number; figure: string | number }
  'pull.others.at': { time: string | number }
  'pull.others.you': { figure: string | number }
  'pull.others.came': null
  'pull.others.box': { n: number }
  'pull.pad.expected': { where: string | number; n: string | number }
  'pull.pad.measure': { where: string | number; measure: string | number }
  'pull.pad.damaged': { n: string | number }
  'pull.pad.closed': null
  'pull.pad.many': null
  'pull.pad.no_scale': null
  'pull.pad.failed': null
  'pull.key.all': { n: string | number }
  'pull.key.all.sound': { n: string | number }
  'pull.key.damaged': null
  'pull.key.counted': null
  'pull.key.wrong': null
  'pull.key.more': null
  'pull.key.not': { figure: string | number }
  'pull.key.both': null
  'pull.pad.sure': { n: string | number }
  'pull.saved.both': { position: string | number; n: string | number }
  'pull.key.weigh': null
  'pull.key.save.damaged': { n: string | number; damaged: string | number }
  'pull.mine.set': { n: string | number }
  'pull.mine.damaged': { n: string | number; damaged: string | number }
  'pull.mine.add': { n: string | number }
  'pull.mine.weighed': { n: string | number }
  'pull.mine.sealed': { n: string | number }
  'pull.mine.note': null
  'pull.saved.over': { position: string | number; n: string | number; over: string | number }
  'pull.saved': { position: string | number; n: string | number }
  'pull.saved.weighed': { position: string | number; n: string | number }
  'pull.saved.damaged': { position: string | number; n: string | number; damaged: string | number }
  'pull.saved.more': { position: string | number }
  'pull.saved.wrong': null
  'pull.saved.box': { n: number; what: string | number }
  'pull.saved.sealed': { n: number; what: string | number }
  'pull.box.all': { n: number }
  'pull.box.all.means': null
  'pull.box.sealed': null
  'pull.box.sealed.means': null
  'pull.box.wrong': { n: number }
  'pull.box.done': null
  'pull.box.where': { what: string | number; of: string | number }
  'pull.which': { q: string | number; n: string | number }
  'pull.which.detail': null
  'pull.weighed': null
  'weigh.figures': null
  'weigh.figure.count': null
  'weigh.figure.sample': null
  'weigh.figure.all': null
  'weigh.figure.tare': null
  'weigh.note.count': null
  'weigh.note.sample': null
  'weigh.note.all': null
  'weigh.note.all.sample': { day: string | number }
  'weigh.note.tare': null
  'weigh.next.count': null
  'weigh.next.sample': null
  'weigh.next.all': null
  'weigh.next.step': null
  'weigh.next.kind': null
  'weigh.type.count': null
  'weigh.type.mass': null
  'weigh.save': { n: string | number }
  'weigh.save.instead': { n: string | number; instead: string | number }
  'weigh.save.not': null
  'weigh.by_hand': null
  'weigh.tare': null
  'weigh.grams': { n: string | number }
  'weigh.about': { step: string | number; kind: string | number }
  'weigh.about.ask': null
  'weigh.step': null
  'weigh.kind': null
  'weigh.choose': null
  'weigh.kind.turned': null
  'weigh.kind.fasteners': null
  'weigh.kind.pressed': null
  'weigh.kind.moulded': null
  'weigh.kind.rubber': null
  'weigh.kind.of': { kind: string | number; percent: string | number }
  'weigh.all_here': { n: number }
  'weigh.short': { n: number; apart: string | number }
  'weigh.over': { n: number; apart: string | number }
  'weigh.sure': { n: string | number }
  'weigh.cannot': { n: number }
  'weigh.cannot.remedy': null
  'weigh.between': { estimate: string | number }
  'weigh.between.cause': null
  'weigh.fault.small': { n: number }
  'weigh.fault.nothing': null
  'weigh.fault.tare': { all: string | number; tare: string | number }
  'weigh.fault.step': { step: string | number; mass: string | number }
  'weigh.how.rule.piece': null
  'weigh.how.rule.spread': null
  'weigh.how.rule.trust': null
  'weigh.how.piece': { mass: string | number; n: string | number }
  'weigh.how.net': { all: string | number; tare: string | number }
  'weigh.how.estimate': { net: string | number; piece: string | number }
  'weigh.how.pieces_apart': { percent: string | number; estimate: string | number; n: string | number }
  'weigh.how.scale_apart': { step: string | number; piece: string | number; estimate: string | number; n: string | number }
  'weigh.how.sd': { pieces: string | number; scale: string | number }
  'weigh.how.three': null
  'weigh.how.off': null
  'weigh.how.pieces': { n: number }
  'weigh.how.by_hand': null
  'pull.to_end': null
  'pull.so_far': null
  'pull.row.counted': null
  'pull.row.left': null
  'pull.row.differs': null
  'pull.row.again': null
  'pull.row.late': null
  'pull.row.sealed': null
  'pull.row.waiting': null
  'pull.row.waiting.unsent': null
  'pull.report': null
  'pull.paper': null
  'pull.paper.counts': null
  'pull.workbook': null
  'pull.csv': null
  'pull.orders': null
  'pull.close': null
  'pull.closing': null
  'pull.close.ask': { n: number }
  'pull.close.detail': null
  'pull.close.count_on': null
  'pull.close.waiting': { n: number }
  'pull.close.waiting.title': null
  'pull.close.more': { n: number }
  'pull.close.more.detail': null
  'pull.closed.title': null
  'pull.closed.detail': null
  'pull.astray': null
  'pull.astray.detail': null
  'pull.empty': null
  'pull.empty.detail': null
  'report.title': { job: string | number }
  'report.title.alone': null
  'report.counter': { who: string | number; words: string | number; at: string | number }
  'report.open': null
  'report.closed': { when: string | number; who: string | number }
  'report.counted': { n: string | number; of: string | number }
  'report.differ': { n: number }
  'report.none': null
  'report.none.detail': null
  'report.figure': { total: string | number; expected: string | number }
  'report.nothing': { expected: string | number }
  'report.either': { low: string | number; total: string | number; expected: string | number }
  'report.to_list': null
  'report.reopen': null
  'report.reopen.after': null
  'report.reopen.who': null
  'report.waiting': { n: number }
  'orders.title': { job: string | number }
  'orders.note': null
  'orders.paper': { shop: string | number; day: string | number }
  'orders.print': null
  'orders.nobody': null
  'orders.nobody.detail': null
  'orders.lines': { n: number }
  'orders.for': { what: string | number }
  'orders.none': null
  'orders.none.detail': null
  'phone.title': null
  'phone.waiting': null
  'phone.waiting.none': null
  'phone.waiting.none.detail': null
  'phone.send': null
  'phone.sending': null
  'phone.needs_you': null
  'phone.needs_you.detail': null
  'phone.settle': null
  'phone.to_line': null
  'phone.other': null
  'phone.old': { when: string | number }
  'phone.why.malformed': null
  'phone.why.out_of_bounds': null
  'phone.why.unknown_line': null
  'phone.why.id_reused': null
  'phone.why.number_reused': null
  'phone.what.set': { n: string | number }
  'phone.what.weighed': { n: string | number }
  'phone.what.damaged': { n: string | number; damaged: string | number }
  'phone.what.add': { n: string | number }
  'phone.what.undo': null
  'phone.what.note': null
  'phone.line': { position: string | number; title: string | number }
  'phone.line.unknown': null
  'release.title': null
  'release.do': null
  'release.hint': null
  'release.done': null
  'release.copy': null
  'release.copied': null
  'release.ubl': { supplier: string | number }
  'release.outside': { title: string | number; firm: string | number }
  'release.past': { at: string | number }
  'first.title': null
  'first.state.none': null
  'first.state.waiting': null
  'first.state.differ': { n: number }
  'first.state.nothing': null
  'first.state.again': null
  'first.counted_by': { n: number; by: string | number }
  'first.carton': null
  'first.carton.hint': null
  'first.bag': null
  'first.bag.hint': null
  'first.text': null
  'first.text.hint': null
  'first.text.wrong': { n: string | number }
  'first.put': null
  'first.counted': null
  'first.lines': { n: number }
  'first.line': { number: string | number; quantity: string | number }
  'first.change': null
  'first.change.what': { what: string | number }
  'first.refused': { place: string | number; number: string | number; why: string | number }
  'first.save': null
  'first.save.first': null
  'first.saved': null
  'first.differ': null
  'first.agreed': { n: number }
  'first.by': { by: string | number; quantity: string | number }
  'first.again': { place: string | number; number: string | number }
  'first.save.lines': null
  'first.begin_again': null
  'first.made': null
  'first.made.detail': { n: string | number }
  'first.to_kit': null
  'people.title': null
  'people.only': null
  'people.back': null
  'people.members': null
  'people.you': null
  'people.since': { day: string | number }
  'people.signed_in': { when: string | number }
  'people.never': null
  'people.last_manager': null
  'people.invitations': null
  'people.invitation': { role: string | number; name: string | number }
  'people.invitation.until': { when: string | number }
  'people.invite': null
  'people.invite.note': null
  'people.invite.email': null
  'people.invite.email.hint': null
  'people.invite.role': null
  'people.invite.go': null
  'people.role.advisor': null
  'people.role.parts': null
  'people.role.technician': null
  'people.role.manager': null
  'people.invite.mail': null
  'people.mail': { words: string | number }
  'people.mail.asked': { email: string | number }
  'people.no_server': null
  'people.withdraw': null
  'people.withdraw.label': { email: string | number }
  'people.withdrawn': { email: string | number }
  'people.link': { email: string | number }
  'people.link.note': { when: string | number }
  'people.link.copy': null
  'people.link.copied': null
  'people.link.by_hand': null
  'people.link.again': null
  'people.role.save': null
  'people.role.saved': { name: string | number; role: string | number }
  'people.password': null
  'people.password.note': { name: string | number }
  'people.password.mail': null
  'people.password.go': null
  'people.factor': null
  'people.factor.has': null
  'people.factor.note': null
  'people.factor.asked': null
  'people.factor.nobody': null
  'people.factor.managers': null
  'people.factor.all': null
  'people.factor.save': null
  'people.factor.saved': null
  'people.factor.lost': { name: string | number }
  'people.factor.off': null
  'people.factor.ended': { name: string | number }
  'people.sign_ins': { name: string | number }
  'people.pins': { name: string | number }
  'people.pins.note': null
  'people.pins.set': { set: string | number; ends: string | number }
  'people.pins.locked': null
  'people.pins.end': null
  'people.pins.end.label': { device: string | number; set: string | number }
  'people.pins.ended': null
  'people.sign_ins.none': null
  'people.sign_ins.all': null
  'people.sign_ins.all_done': null
  'people.remove': null
  'people.remove.ask': { name: string | number }
  'people.remove.detail': { name: string | number }
  'people.remove.done': { name: string | number }
  'entry.invitation': { shop: string | number }
  'entry.password': null
  'entry.reading': null
  'entry.invitation.note': { role: string | number; email: string | number }
  'entry.password.note': { name: string | number; email: string | number }
  'entry.name': null
  'entry.new': null
  'entry.new.hint': null
  'entry.again': null
  'entry.go': null
  'entry.going': null
  'entry.home': null
  'entry.link': null
  'entry.go_on': { name: string | number }
  'forgotten.title': null
  'forgotten.note': null
  'forgotten.email': null
  'forgotten.go': null
  'forgotten.asked': { email: string | number }
  'forgotten.by_hand': null
  'factor.title': null
  'factor.asked': null
  'factor.is_off': null
  'factor.is_on': { when: string | number; n: number }
  'factor.turn_on': null
  'factor.turn_off': null
  'factor.password': null
  'factor.scan': null
  'factor.qr': null
  'factor.secret': null
  'factor.code': null
  'factor.confirm': null
  'factor.codes': null
  'factor.codes.label': null
  'factor.codes.kept': null
  'photograph.title': null
  'photograph.seen': { n: number; all: string | number }
  'photograph.of': { n: string | number; caption: string | number }
  'photograph.line': null
  'photograph.choose': null
  'photograph.choose.another': null
  'photograph.chosen': null
  'photograph.missing': null
  'photograph.unreadable': null
  'photograph.caption': null
  'photograph.caption.hint': null
  'photograph.seen_by': null
  'photograph.seen_by.customer': null
  'photograph.seen_by.workshop': null
  'photograph.public': null
  'photograph.own': null
  'photograph.add': null
  'photograph.show': null
  'photograph.show.label': { caption: string | number }
  'photograph.hide': null
  'photograph.hide.label': { caption: string | number }
  'pin.wrong': null
  'pin.left': { n: number }
  'pin.used_up': null
  'pin.used_up.detail': null
  'pin.ended': null
  'pin.ended.detail': null
  'pin.change': null
  'pin.change.note': null
  'pin.here': null
  'pin.locked': null
  'pin.pad': { name: string | number }
  'pin.typed': { n: number }
  'pin.checking': null
  'pin.six': null
  'pin.password': null
  'pin.title': null
  'pin.note': null
  'pin.begin': null
  'pin.replace': null
  'pin.own_password': null
  'pin.six.hint': null
  'pin.again': null
  'pin.differs': null
  'pin.set': null
  'pin.is_set': null
  'pin.until': { set: string | number; ends: string | number }
  'pin.end': null
  'pin.end.label': { device: string | number; set: string | number }
  'pin.is_ended': null
  'plan.picture': { title: string | number; when: string | number; way: string | number }
  'plan.vehicle': null
  'plan.ready': { day: string | number }
  'plan.ready.words': { when: string | number }
  'plan.here': null
  'plan.work': null
  'plan.wait': null
  'plan.arrives': null
  'plan.closed': null
  'plan.coming': null
  'plan.slide': null
  'here.already': null
  'here.day': null
  'here.hint': null
  'here.proposed': { when: string | number }
  'programs.title': null
  'programs.only': null
  'programs.keys': null
  'programs.keys.note': null
  'programs.keys.none': null
  'programs.keys.none.detail': null
  'programs.key.as': { person: string | number; role: string | number }
  'programs.key.reads': null
  'programs.key.writes': null
  'programs.key.until': { day: string | number }
  'programs.key.expired': null
  'programs.key.used': { when: string | number }
  'programs.key.unused': null
  'programs.key.by': { name: string | number }
  'programs.key.end': null
  'programs.key.end.label': { title: string | number }
  'programs.key.ended': { title: string | number }
  'programs.area.quotes': null
  'programs.area.jobs': null
  'programs.area.parts': null
  'programs.area.stock': null
  'programs.new': null
  'programs.new.note': null
  'programs.new.name': null
  'programs.new.name.hint': null
  'programs.new.person': null
  'programs.new.person.choice': { name: string | number; role: string | number }
  'programs.new.reach': null
  'programs.new.may': null
  'programs.new.reads': null
  'programs.new.writes': null
  'programs.new.until': null
  'programs.new.until.hint': null
  'programs.new.go': null
  'programs.secret': { title: string | number }
  'programs.secret.note': null
  'programs.secret.copy': null
  'programs.secret.copied': null
  'programs.secret.by_hand': null
  'programs.secret.again': null
  'programs.calendars': null
  'programs.calendars.note': null
  'programs.calendars.none': null
  'programs.calendars.none.detail': null
  'programs.calendar.by': { name: string | number; day: string | number }
  'programs.calendar.end': null
  'programs.calendar.end.label': { title: string | number }
  'programs.calendar.ended': { title: string | number }
  'programs.calendar.name': null
  'programs.calendar.name.hint': null
  'programs.calendar.go': null
  'programs.calendar.url': { title: string | number }
  'programs.calendar.url.note': null
  'programs.calendar.copy': null
  'programs.calendar.again': null
  'quote.note': null
  'quote.note.hint': null
  'quote.note.customer': null
  'quote.note.customer.hint': null
  'quote.note.customer.text': { note: string | number }
  'quote.note.save': null
  'quote.note.text': { note: string | number }
  'quote.note.add': null
  'quote.note.change': null
  'quote.copy': null
  'quote.copy.short': null
  'quote.copied': { number: string | number }
  'quote.copied.without': { things: string | number }
  'quote.copied.discount': null
  'quote.copied.figures': null
  'quote.copied.charges': null
  'quote.copied.notes': null
  'quote.copied.condition': null
  'quote.copied.day': null
  'quote.discard': null
  'quote.discard.short': null
  'quote.discarded': { number: string | number }
  'quote.did.note': null
  'quote.title': { number: string | number }
  'quote.saved': { revision: string | number; at: string | number; who: string | number }
  'quote.undo': { words: string | number }
  'quote.redo': { words: string | number }
  'quote.did.undo': { words: string | number }
  'quote.did.redo': { words: string | number }
  'quote.earlier': { revision: string | number }
  'quote.earlier.unread': { revision: string | number }
  'quote.earlier.back': { revision: string | number }
  'quote.overtaken': { name: string | number; revision: string | number; draft: string | number }
  'quote.box.customer': null
  'quote.box.nobody': null
  'quote.box.vehicle': null
  'quote.box.no_vehicle': null
  'quote.box.vin': null
  'quote.box.vin.tail': { tail: string | number }
  'quote.vehicle.vin_tail': { tail: string | number }
  'quote.box.vin.none': null
  'quote.box.rules': null
  'quote.box.rules.with_tax': null
  'quote.box.rules.before_tax': null
  'quote.choose': null
  'quote.choose.customer': null
  'quote.change': null
  'quote.change.customer': null
  'quote.choose.vehicle': null
  'quote.change.vehicle': null
  'quote.change.facts': null
  'quote.kits': null
  'quote.kit.parts': { n: number; cartons: string | number }
  'quote.kit.parts.loose': { n: number }
  'quote.kit.applies': { cartons: number; n: string | number; listed: string | number }
  'quote.kit.applies.loose': { n: string | number; listed: string | number }
  'quote.kit.bare': null
  'quote.kit.revision': { revision: string | number }
  'quote.kit.alone': { alone: string | number }
  'quote.kit.saves': { hours: string | number; amount: string | number }
  'quote.kit.saves_amount': { amount: string | number }
  'quote.kit.saves_hours': { hours: string | number }
  'quote.kit.saves_nothing': null
  'quote.figure.saves': { value: string | number; title: string | number }
  'quote.kit.first': { factor: string | number }
  'quote.kept': null
  'quote.kept.set': null
  'quote.kept.set.label': { title: string | number }
  'quote.kept.undo': null
  'quote.kept.undo.label': { title: string | number }
  'quote.kit.supplied': null
  'quote.kit.bring': null
  'quote.kit.bring.label': { title: string | number }
  'quote.kit.sell': null
  'quote.kit.sell.label': { title: string | number }
  'quote.kit.fitted': null
  'quote.kit.fitted.set': null
  'quote.kit.first.set': null
  'quote.take_off': null
  'quote.take_off.label': { title: string | number }
  'quote.add': null
  'quote.add.short': null
  'quote.add.kit': null
  'quote.add.part': null
  'quote.add.labour': null
  'quote.add.list': null
  'quote.list': null
  'quote.list.paste': null
  'quote.list.paste.hint': null
  'quote.list.read': null
  'quote.list.row': null
  'quote.list.part': null
  'quote.list.quantity': null
  'quote.list.price': null
  'quote.list.add': { n: number }
  'quote.did.list': { n: number }
  'quote.add.outside': null
  'quote.add.text': null
  'quote.add.contingency': null
  'quote.add.photograph': null
  'quote.add.what': null
  'quote.labour': null
  'quote.labour.figure': { hours: string | number; amount: string | number }
  'quote.labour.none': null
  'quote.labour.none.detail': null
  'quote.col.no': null
  'quote.col.operation': null
  'quote.col.kits': null
  'quote.col.hours': null
  'quote.col.price': null
  'quote.col.need': null
  'quote.condition': null
  'quote.condition.none': null
  'quote.condition.light': null
  'quote.condition.moderate': null
  'quote.condition.heavy': null
  'quote.condition.factor': { factor: string | number }
  'quote.needs.covered': null
  'quote.needs.charged': null
  'quote.charge': null
  'quote.charge.pack': null
  'quote.charge.used': null
  'quote.charge.supplies': null
  'quote.charge.again': null
  'quote.rest': null
  'quote.contingencies': null
  'quote.contingencies.detail': null
  'quote.contingency.event': null
  'quote.contingency.event.hint': null
  'quote.contingency.title': null
  'quote.contingency.kind': null
  'quote.contingency.kind.labour': null
  'quote.contingency.kind.text': null
  'quote.contingency.hours': null
  'quote.contingency.skill': null
  'quote.contingency.cap': null
  'quote.contingency.each': { n: number; price: string | number }
  'quote.contingency.to': { least: string | number; most: string | number }
  'quote.contingency.or': { least: string | number; most: string | number }
  'quote.contingency.in_any_case': null
  'quote.contingency.mark': null
  'quote.contingency.mark.label': { title: string | number }
  'quote.extras': null
  'quote.extra.each': { quantity: string | number; price: string | number }
  'quote.fees': null
  'quote.fees.all': null
  'quote.sums': null
  'quote.net': null
  'quote.tax': { title: string | number; rate: string | number }
  'quote.tax.inside': { title: string | number; rate: string | number }
  'quote.tax.amount': { title: string | number; rate: string | number; amount: string | number }
  'quote.tax.inside.amount': { title: string | number; rate: string | number; amount: string | number }
  'quote.gross': null
  'quote.deposit': { base: string; percent: string | number }
  'quote.deposit.received': { day: string | number }
  'quote.deposit.part': { amount: string | number; day: string | number }
  'quote.deposit.awaited': null
  'quote.figure.hours': { title: string | number; value: string | number }
  'quote.figure.price': { title: string | number; value: string | number }
  'quote.figure.how': { title: string | number; value: string | number }
  'quote.figure.press': null
  'quote.figure.press.sent': null
  'quote.figure.yours': null
  'quote.figure.hours.label': null
  'quote.figure.price.label': null
  'quote.figure.hint': { value: string | number }
  'quote.figure.because': null
  'quote.figure.because.hint': null
  'quote.figure.put': null
  'quote.figure.again': null
  'quote.version.before': null
  'quote.version.after': null
  'quote.version.none': null
  'quote.version.rest': null
  'quote.version.no_lines': null
  'quote.rules.newer': null
  'quote.rules.newer.from': { day: string | number }
  'quote.rules.newer.now': null
  'quote.rules.newer.then': null
  'quote.rules.newer.none': null
  'quote.rules.newer.lines': { n: number }
  'quote.rules.newer.use': null
  'quote.rules.newer.keep': null
  'quote.rules.newer.offer': { day: string | number }
  'quote.choices': null
  'quote.choices.detail': null
  'quote.choice.leave': null
  'quote.choice.short': null
  'quote.choice.form': null
  'quote.choice.title': null
  'quote.choice.title.hint': null
  'quote.choice.take': null
  'quote.choice.one': null
  'quote.choice.any': null
  'quote.choice.take_one': { title: string | number }
  'quote.choice.take_any': { title: string | number }
  'quote.choice.options': null
  'quote.choice.options.hint': null
  'quote.choice.save': null
  'quote.option.lines': { n: number }
  'quote.option.lines.label': { title: string | number }
  'quote.option.which': { title: string | number }
  'quote.option.rename': { title: string | number }
  'quote.option.title': null
  'quote.option.add': null
  'quote.option.up': null
  'quote.option.up.label': { title: string | number }
  'quote.did.proposed': { title: string | number }
  'quote.did.not_proposed': { title: string | number }
  'quote.discount': null
  'quote.discount.short': null
  'quote.discount.give': null
  'quote.discount.change': null
  'quote.discount.kind': null
  'quote.discount.percent': null
  'quote.discount.amount': null
  'quote.discount.because.hint': null
  'quote.discount.on': null
  'quote.extra.change': { title: string | number }
  'quote.extra.supplied': null
  'quote.extra.core': null
  'quote.extra.own': { because: string | number }
  'quote.extra.again': null
  'quote.extra.save': null
  'quote.part.sold': { sold: string }
  'quote.part.condition': null
  'quote.part.condition.new': null
  'quote.part.condition.used': null
  'quote.part.condition.reconditioned': null
  'quote.part.maker': null
  'quote.part.maker.other': null
  'quote.part.maker.original': null
  'quote.text.title': null
  'quote.text.quantity': null
  'quote.text.unit_price': null
  'quote.text.core': null
  'quote.text.core.no': null
  'quote.text.core.yes': null
  'quote.text.supplied': null
  'quote.text.fitted_by': null
  'quote.text.fitted_by.hint': null
  'quote.text.fitted_by.none': null
  'quote.text.tax_class': null
  'quote.text.tax_class.choose': null
  'quote.text.tax_class.others': null
  'quote.text.add': null
  'quote.part.find': null
  'quote.part.find.hint': null
  'quote.part.none': { q: string | number }
  'quote.decide': null
  'quote.decide.state': { value: string | number }
  'quote.decide.no_vehicle': null
  'quote.decide.answer': { attribute: string | number; value: string | number }
  'quote.undecided.ready': { day: string | number }
  'quote.undecided.each_ready': { day: string | number }
  'quote.undecided.prices': null
  'quote.undecided.unfit': null
  'quote.undecided.recorded': { words: string | number }
  'quote.undecided.set': { words: string | number }
  'quote.undecided.undone': { says: string | number }
  'quote.undecided.below': { words: string | number }
  'quote.range': null
  'quote.notices': null
  'quote.comes_to': null
  'quote.hours': null
  'quote.margin': null
  'quote.percent': { rate: string | number }
  'quote.bought': null
  'quote.bought.note': null
  'quote.bought.times': { quantity: string | number; title: string | number }
  'quote.bought.together': null
  'quote.bought.together.all': null
  'quote.bought.together.net': { amount: string | number }
  'quote.bought.together.profit': { amount: string | number }
  'quote.margin.profit': { amount: string | number }
  'quote.margin.profit.lowest': { amount: string | number }
  'quote.margin.floor': { rate: string | number }
  'quote.margin.below': { rate: string | number }
  'quote.ready': null
  'quote.ready.dates': null
  'quote.ready.comes': null
  'quote.ready.comes.proposed': { when: string | number }
  'quote.ready.draft': null
  'quote.ready.if': null
  'quote.ready.were': null
  'quote.ready.recorded': null
  'quote.ready.none': null
  'quote.ready.here_from.closed': { day: string | number; from: string | number }
  'quote.ready.of': { words: string | number; day: string | number }
  'quote.ready.to': null
  'quote.ready.here': null
  'quote.ready.here_from.day': { day: string | number }
  'quote.ready.unknown': null
  'quote.valid': null
  'quote.valid.days': { n: number }
  'quote.valid.until': { day: string | number }
  'quote.mark': null
  'quote.mark.where': null
  'quote.moved': { was: string | number; says: string | number }
  'quote.bar.hours': { hours: string | number }
  'quote.bar.ready': { told: string | number; day: string | number }
  'quote.bar.ready_early': { told: string | number; day: string | number }
  'quote.bar.range': { low: string | number; high: string | number }
  'quote.bar.lowest': { n: string | number }
  'quote.bar.highest': null
  'quote.bar.settle': { n: number }
  'quote.send.check': null
  'quote.settle.to': null
  'quote.send.to_do': null
  'quote.as_customer': null
  'quote.send.bar': null
  'quote.send.freeze': null
  'quote.send.busy': null
  'quote.send.to': null
  'quote.send.to.hint': null
  'quote.send.missing': null
  'quote.send.all_the_same': null
  'quote.send.below': null
  'quote.send.below.detail': null
  'quote.send.close': null
  'quote.sent.to': { recipient: string | number; revision: string | number }
  'quote.link.address': null
  'quote.link.once': null
  'quote.link.copy': null
  'quote.link.copied': null
  'quote.link.share': null
  'quote.message': { message: string | number }
  'quote.message.copy': null
  'quote.message.copied': null
  'quote.mail': null
  'quote.mail.to': null
  'quote.mail.none': { customer: string | number }
  'quote.mail.own': null
  'quote.mail.no_server': null
  'quote.mail.send': null
  'quote.mail.asked': { to: string | number }
  'quote.mail.by': { name: string | number; at: string | number }
  'quote.mail.by_acceptance': { at: string | number }
  'quote.mail.by_question': { at: string | number }
  'quote.mail.quote_link': { to: string | number }
  'quote.mail.receipt': { to: string | number }
  'quote.mail.moved_date': { to: string | number }
  'quote.mail.question': { to: string | number }
  'quote.mail.reply': { to: string | number }
  'quote.mail.again': null
  'quote.mail.again.label': { to: string | number }
  'quote.mail.arrived': null
  'quote.mail.arrived.label': { to: string | number }
  'quote.mail.cancel': null
  'quote.mail.cancel.label': { to: string | number }
  'quote.link.detail': { number: string | number }
  'quote.out.sent': { at: string | number }
  'quote.paper': null
  'quote.ubl': null
  'quote.receipt': null
  'quote.revise': null
  'quote.revised': { revision: string | number }
  'quote.withdraw': null
  'quote.withdraw.ask': { revision: string | number }
  'quote.withdraw.detail': null
  'quote.links': null
  'quote.links.open': { n: number }
  'quote.links.none': null
  'quote.links.none.detail': null
  'quote.link.until': { day: string | number }
  'quote.link.with_job': null
  'quote.link.back': { at: string | number }
  'quote.link.ended': { day: string | number }
  'quote.link.made': { at: string | number }
  'quote.link.revoke': null
  'quote.link.revoke.label': { recipient: string | number }
  'quote.link.revoke.ask': { recipient: string | number }
  'quote.link.revoke.do': null
  'quote.link.revoke.detail': null
  'quote.link.revoked': { recipient: string | number }
  'quote.link.another': null
  'quote.link.another.make': null
  'quote.answer.price': { price: string | number; amount: string | number }
  'quote.answer.total': { amount: string | number }
  'quote.answer.accepted': { name: string | number; at: string | number }
  'quote.answer.ceiling': { name: string | number; at: string | number }
  'quote.answer.declined': { name: string | number; at: string | number }
  'quote.answer.consents': null
  'quote.answer.consents.none': null
  'quote.answer.phone': { phone: string | number; by: string | number }
  'quote.answer.counter': { by: string | number }
  'quote.answer.reason': { reason: string | number }
  'quote.answer.words': null
  'quote.questions': null
  'quote.question.asked': { recipient: string | number; at: string | number }
  'quote.question.replied': { by: string | number; at: string | number }
  'quote.question.reply': null
  'quote.question.reply.hint': null
  'quote.question.reply.begin': null
  'quote.question.send': null
  'quote.question.sent': null
  'quote.spoken.record': null
  'quote.spoken.recorded': null
  'quote.spoken.title': null
  'quote.spoken.way': null
  'quote.spoken.phone': null
  'quote.spoken.counter': null
  'quote.spoken.number': null
  'quote.spoken.read': null
  'quote.spoken.which': null
  'quote.spoken.required': null
  'quote.spoken.optional': { without: string | number }
  'quote.spoken.tick': null
  'quote.spoken.done': null
  'quote.spoken.name': null
  'quote.spoken.when': null
  'quote.spoken.when.hint': null
  'quote.spoken.accepts': { amount: string | number }
  'quote.spoken.accepts.none': null
  'quote.spoken.declines': null
  'quote.spoken.reason': null
  'quote.answer.next': null
  'quote.job': { number: string | number }
  'quote.job.reach': null
  'quote.job.reach.about': null
  'quote.pull_list': null
  'quote.pull_list.about': null
  'quote.stale': { who: string | number; at: string | number }
  'quote.stale.detail': { says: string | number }
  'quote.conflict': null
  'quote.conflict.mine': null
  'quote.conflict.theirs': { who: string | number }
  'quote.conflict.wanted': null
  'quote.conflict.not_made': null
  'quote.conflict.missing': null
  'quote.conflict.hours': { hours: string | number }
  'quote.conflict.line': { quantity: string | number; price: string | number }
  'quote.conflict.leave': { who: string | number }
  'quote.conflict.make': null
  'quote.again': null
  'quote.did.photograph': { caption: string | number }
  'quote.did.photograph.show': { caption: string | number }
  'quote.did.photograph.hide': { caption: string | number }
  'quote.did.photograph.remove': { caption: string | number }
  'quote.did.take_off': { title: string | number }
  'quote.did.add': { title: string | number }
  'quote.did.figure': { title: string | number }
  'quote.did.charge': { title: string | number }
  'quote.did.recompute': { title: string | number }
  'quote.did.condition': { condition: string | number }
  'quote.did.here_from': { day: string | number }
  'quote.did.here': null
  'quote.did.no_day': null
  'quote.did.customer': { name: string | number }
  'quote.did.vehicle': { title: string | number }
  'quote.did.supplied': { title: string | number }
  'quote.did.sold': { title: string | number }
  'quote.did.returnable': { title: string | number }
  'quote.did.not_returnable': { title: string | number }
  'quote.did.fitted_before': { title: string | number }
  'quote.did.first_fit': { title: string | number }
  'quote.did.rules': { day: string | number }
  'quote.did.rules_kept': null
  'quote.did.rules_offered': null
  'quote.did.discount': null
  'quote.did.no_discount': null
  'quote.did.change': { title: string | number }
  'quote.new': null
  'quote.new.hint': null
  'quote.new.make': { n: number }
  'quote.new.make.none': null
  'quote.new.making': null
  'quote.pick.fits': null
  'quote.pick.ask': null
  'quote.pick.open': null
  'quote.pick.no': null
  'quote.pick.any': null
  'quote.pick.find': null
  'quote.pick.more': null
  'quote.pick.none': null
  'quote.pick.none.detail': null
  'quote.pick.bare': null
  'quote.kit.code': null
  'quote.kit.title': null
  'quote.kit.price': null
  'quote.kit.hours': null
  'quote.kit.cost': null
  'quote.kit.days': null
  'quote.kit.models': null
  'quote.kit.model': null
  'quote.kit.model.other': null
  'quote.kit.model.hint': null
  'quote.kit.make': null
  'quote.kit.make.later': null
  'quote.customer.find': null
  'quote.customer.owner': null
  'quote.customer.none': { q: string | number }
  'quote.customer.add': null
  'quote.customer.add.named': { q: string | number }
  'quote.customer.name': null
  'quote.customer.phone': null
  'quote.customer.email': null
  'quote.customer.address': null
  'quote.customer.save': null
  'quote.customer.change': { name: string | number }
  'quote.customer.keep': null
  'quote.vehicle.find': null
  'quote.vehicle.none': { q: string | number }
  'quote.vehicle.add': null
  'quote.vehicle.title': null
  'quote.vehicle.plate': null
  'quote.vehicle.vin': null
  'quote.vehicle.vin.hint': null
  'quote.vehicle.vin.use': { vin: string | number }
  'quote.vehicle.vin.keep': null
  'quote.vehicle.vin.keep.add': null
  'quote.vehicle.model': null
  'quote.vehicle.transmission': null
  'quote.vehicle.another': null
  'quote.vehicle.another.of': { label: string | number }
  'quote.vehicle.copy': null
  'quote.vehicle.copied': { title: string | number }
  'quote.vehicle.copy.none': null
  'quote.vehicle.more': null
  'quote.vehicle.more.about': null
  'quote.vehicle.fact': { name: string | number }
  'quote.vehicle.litres': { name: string | number }
  'quote.vehicle.save': null
  'quote.vehicle.keep': null
  'quotes.title': null
  'quotes.note': null
  'quotes.note.last_day': null
  'quotes.none': null
  'quotes.none.detail': null
  'quotes.all': null
  'quotes.all.long': null
  'quotes.find': null
  'quotes.find.hint': null
  'quotes.of.named': { name: string | number }
  'quotes.of.part': null
  'quotes.vehicles': null
  'quotes.more': null
  'quotes.states': null
  'quote.change.title': { number: string | number; job: string | number }
  'quote.change.opener': { job: string | number }
  'quote.change.before': null
  'quote.change.this': null
  'quote.change.after': null
  'quote.change.ceiling': null
  'quote.change.go_ahead': null
  'quote.change.go_ahead.detail': null
  'quote.change.take_off': null
  'quote.change.take_off.detail': null
  'quote.change.taken': null
  'quote.change.work': { title: string | number; hours: string | number }
  'quote.change.all': null
  'quote.change.begin': null
  'quote.change.untitled': { number: string | number }
  'quote.change.by': { name: string | number }
  'quote.change.by.ceiling': { name: string | number }
  'ready.title': { number: string | number }
  'ready.about': { customer: string | number; vehicle: string | number }
  'ready.from': { when: string | number }
  'ready.link': null
  'ready.margin': null
  'ready.counted': { counted: string | number; lines: string | number }
  'ready.clear': { cleared: string | number; total: string | number }
  'ready.clear.until': { before: string | number; position: string | number; cleared: string | number; total: string | number }
  'ready.waits': null
  'ready.waits.n': { n: number }
  'ready.minor': null
  'ready.have': { have: string | number; need: string | number }
  'ready.steps.more': { n: number }
  'ready.detail': { title: string | number }
  'ready.each': null
  'ready.day': null
  'ready.hour': null
  'ready.hour.hint': null
  'ready.set.n': { n: number }
  'ready.back': null
  'ready.unsent': null
  'ready.day.missing': null
  'ready.due': { title: string | number; due: string | number }
  'ready.due.back': { title: string | number }
  'ready.comes': null
  'ready.order': null
  'ready.order.nobody': null
  'ready.order.more': { titles: string | number; n: string | number }
  'ready.order.lines': { n: number }
  'ready.date': null
  'ready.here': null
  'ready.here_from.day': { day: string | number }
  'ready.steps': null
  'ready.steps.none': null
  'ready.steps.none.detail': null
  'ready.no_way_back': null
  'ready.to_step': { position: string | number; title: string | number }
  'ready.more': { n: string | number }
  'ready.list': null
  'ready.differences': null
  'ready.sheet': null
  'out.title': null
  'out.need': { words: string | number }
  'out.reference': { reference: string | number }
  'out.do.sent': null
  'out.do.again': null
  'out.do.asked': null
  'out.do.back': null
  'out.do.undone': null
  'out.save.sent': null
  'out.save.asked': null
  'out.save.back': null
  'out.save.undone': null
  'out.day': null
  'out.expected': null
  'out.expected.hint': null
  'out.reference.label': null
  'out.note': null
  'out.note.hint': null
  'out.done.sent': { title: string | number }
  'out.done.asked': { title: string | number }
  'out.done.back': { title: string | number }
  'out.done.undone': { title: string | number }
  'out.log': null
  'out.log.sent': { day: string | number }
  'out.log.asked': { day: string | number }
  'out.log.back': { day: string | number }
  'out.log.undone': { day: string | number }
  'out.log.expected': { day: string | number }
  'out.log.by': { name: string | number; at: string | number }
  'start.title': { n: string | number }
  'start.done': { done: string | number }
  'start.rest': null
  'start.go.hours': null
  'start.go.rates': null
  'start.go.taxes': null
  'start.go.people': null
  'start.go.kit': null
  'start.go.labour': null
  'start.go.quote': null
  'start.later': null
  'start.later.of': { step: string | number }
  'start.again': null
  'hours.title': null
  'hours.note': null
  'hours.week': null
  'hours.hint': null
  'hours.proposed': null
  'hours.day.mon': null
  'hours.day.tue': null
  'hours.day.wed': null
  'hours.day.thu': null
  'hours.day.fri': null
  'hours.day.sat': null
  'hours.day.sun': null
  'hours.save': null
  'hours.saved': null
  'hours.saved.holidays': null
  'hours.saved.from': { day: string | number }
  'hours.since': null
  'hours.since.hint': null
  'hours.versions': null
  'hours.versions.note': null
  'hours.versions.first': null
  'hours.from': { day: string | number }
  'hours.change': null
  'hours.change.of': { day: string | number }
  'hours.remove': null
  'hours.remove.of': { day: string | number }
  'hours.closed': null
  'hours.closed.note': null
  'hours.closed.none': null
  'hours.closed.none.detail': null
  'hours.holidays': null
  'hours.holidays.note': null
  'hours.country': null
  'hours.country.none': null
  'hours.region': null
  'hours.region.none': null
  'hours.year': null
  'hours.holidays.already': null
  'hours.holidays.close': { n: number }
  'hours.holidays.closed': { n: number }
  'hours.holidays.none': null
  'hours.closing': null
  'hours.first': null
  'hours.last': null
  'hours.last.hint': null
  'hours.reason': null
  'hours.reason.hint': null
  'hours.close': null
  'hours.open': null
  'hours.open.of': { day: string | number }
  'hours.only': null
  'webhooks.title': null
  'webhooks.note': null
  'webhooks.none': null
  'webhooks.none.detail': null
  'webhooks.off.manager': null
  'webhooks.off.gone': null
  'webhooks.off.left': null
  'webhooks.off.restored': null
  'webhooks.waiting': { n: number }
  'webhooks.failed': { n: number }
  'webhooks.by': { name: string | number; day: string | number }
  'webhooks.event.quote_sent': null
  'webhooks.event.quote_withdrawn': null
  'webhooks.event.quote_accepted': null
  'webhooks.event.quote_declined': null
  'webhooks.event.job_state_changed': null
  'webhooks.event.pull_list_state_changed': null
  'webhooks.event.payment_recorded': null
  'webhooks.event.trial': null
  'webhooks.new': null
  'webhooks.new.name': null
  'webhooks.new.name.hint': null
  'webhooks.new.url': null
  'webhooks.new.url.hint': null
  'webhooks.new.events': null
  'webhooks.new.go': null
  'webhooks.secret': { title: string | number }
  'webhooks.secret.note': null
  'webhooks.secret.copy': null
  'webhooks.secret.again': null
  'webhooks.back': null
  'webhooks.gone': null
  'webhooks.address': { url: string | number }
  'webhooks.move': null
  'webhooks.move.hint': null
  'webhooks.move.go': null
  'webhooks.move.saved': { url: string | number }
  'webhooks.told': null
  'webhooks.old_secret': { when: string | number }
  'webhooks.trial': null
  'webhooks.trial.sent': null
  'webhooks.switch_off': null
  'webhooks.switch_on': null
  'webhooks.renew': null
  'webhooks.renew.note': null
  'webhooks.end': null
  'webhooks.ended': { title: string | number }
  'webhooks.switch.note': null
  'webhooks.log': null
  'webhooks.log.note': null
  'webhooks.log.look': null
  'webhooks.log.none': null
  'webhooks.log.none.detail': null
  'webhooks.log.waiting': null
  'webhooks.log.begun': null
  'webhooks.log.done': { when: string | number }
  'webhooks.log.failed': null
  'webhooks.log.cancelled': null
  'webhooks.log.next': { when: string | number }
  'webhooks.log.tries': { n: number }
  'webhooks.log.answer': { status: string | number }
  'webhooks.log.again': null
  'webhooks.log.again.label': { event: string | number; number: string | number }
  'webhooks.why.unreachable': null
  'webhooks.why.certificate': null
  'webhooks.why.silent': null
  'webhooks.why.no_http': null
  'webhooks.why.status': null
  'webhooks.why.redirect': null
  'webhooks.why.gone': null
  'webhooks.why.address': null
  'webhooks.why.https': null
  'webhooks.why.unknown_host': null
  'webhooks.why.private': null
  'webhooks.why.secret_lost': null
  'webhooks.why.off': null
  'webhooks.why.ended': null
  'webhooks.why.restored': null
}
