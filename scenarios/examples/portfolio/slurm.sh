#!/bin/bash
# A portfolio as a Slurm array: each task runs one shard. Tested with Slurm 22.05 on one machine.
#   sbatch --array=0-63 slurm.sh              all shards (COUNT is 64)
#   loamledger portfolio merge shards --out results     names the shards that are missing, if any
#   sbatch --array=3,17 slurm.sh              these alone; those that are finished stay as they are
#SBATCH --job-name=portfolio
#SBATCH --array=0-63
#SBATCH --ntasks=1
#SBATCH --cpus-per-task=1
#SBATCH --mem=500M
#SBATCH --output=portfolio-%a.log
set -eu
exec "${LOAMLEDGER:-loamledger}" portfolio "${ACCOUNTS:-accounts.csv}" --program "${PROGRAM:-program.yaml}" \
	--out "${SHARDS:-shards}" --shards "${COUNT:-64}" --workers "${SLURM_CPUS_PER_TASK:-1}"
