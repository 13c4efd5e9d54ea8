.PHONY: demo serve test bench drills faults format openapi client migrations setup requirements

demo:          ## set up, load the demonstration, serve it (PORT=8000)
	@.make/setup.sh serve
	@.make/serve.sh

serve:         ## set up, serve your own workshop, without the demonstration (PORT=8000)
	@.make/setup.sh serve
	@.make/serve.sh own

test:          ## everything that CI runs
	@.make/setup.sh test
	@.make/test.sh

bench:         ## the measurements, apart from the tests
	@.make/setup.sh test
	@.make/bench.sh

drills:        ## what is long: backups, kill -9, races, generated requests, HTTPS, all faults
	@.make/setup.sh drills
	@.make/drills.sh

setup:         ## only make the clone ready
	@.make/setup.sh test

faults:        ## make every seeded fault in a copy and see that the tests notice
	@.make/setup.sh test
	@.make/faults.sh

format:        ## format and sort both halves
	@.make/format.sh

openapi:       ## write frontend/openapi.json and the types made from it
	@.make/openapi.sh

client:        ## generate the typed Python client into var/client
	@.make/setup.sh test
	@.make/client.sh

migrations:    ## write the migrations that the models ask for
	@.make/migrations.sh

requirements:  ## compile requirements*.in again
	@.make/requirements.sh
