// Package accounts is for one program of measures over many accounts: what the program
// says once, what a table says of each account, and the replay of one account on the
// weather of its station.
//
// An account is a scenario: the zones of the program, with what is known of the account
// in place of what the program says, under the strategies of the program, its measures.
// What is not known is drawn from ranges, choices or donors. Every draw depends on the
// seed, the account and the value alone, so it is the same for all measures, in any
// order of accounts, in any shard and on any machine.
package accounts
