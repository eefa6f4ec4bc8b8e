#!/bin/bash
# A portfolio as an array of a cloud's batch service: each task runs one shard. UNTESTED: no account
# was at hand; its fields are those of the services' own types. Queue, job definition, image and the folder /data are yours; it must be a
# disk on which a folder can be renamed, which a mounted bucket is not. A task reads its
# number from a variable that the service sets: AWS_BATCH_JOB_ARRAY_INDEX or BATCH_TASK_INDEX.
# Then join the shards: loamledger portfolio merge /data/shards --out /data/results
set -eu
case ${1:-} in
aws)
	aws batch submit-job --job-name portfolio --job-queue REPLACE --job-definition REPLACE --array-properties size=64 \
		--retry-strategy attempts=3 --container-overrides \
		'{"command": ["loamledger", "portfolio", "/data/accounts.csv", "--program", "/data/program.yaml", "--out", "/data/shards", "--shards", "64"]}'
	;;
google)
	gcloud batch jobs submit portfolio --location REPLACE --config - <<'JSON'
{"taskGroups": [{"taskCount": 64, "parallelism": 16, "taskSpec": {
  "maxRetryCount": 3,
  "computeResource": {"cpuMilli": 2000, "memoryMib": 1024},
  "volumes": [{"nfs": {"server": "REPLACE", "remotePath": "REPLACE"}, "mountPath": "/data"}],
  "runnables": [{"container": {"imageUri": "REPLACE/loamledger",
    "commands": ["portfolio", "/data/accounts.csv", "--program", "/data/program.yaml", "--out", "/data/shards", "--shards", "64"]}}]}}]}
JSON
	;;
*)
	echo "usage: cloud-batch.sh aws | google"
	exit 2
	;;
esac
