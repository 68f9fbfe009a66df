# bash completion for creasewright-cli
# SPDX-License-Identifier: GPL-3.0-or-later

_creasewright_cli ()
{
  local cur prev command
  COMPREPLY=()
  cur=${COMP_WORDS[COMP_CWORD]}
  prev=${COMP_WORDS[COMP_CWORD - 1]}
  command=${COMP_WORDS[1]}

  if ((COMP_CWORD == 1)); then
    mapfile -t COMPREPLY < <(compgen -W 'check report show steps template --help --version' -- "$cur")
    return
  fi
  case $prev in
    --from)
      mapfile -t COMPREPLY < <(compgen -W 'front back table' -- "$cur")
      return
      ;;
    --sheet)
      mapfile -t COMPREPLY < <(compgen -W 'letter a4 half-letter a5' -- "$cur")
      return
      ;;
    --tool)
      mapfile -t COMPREPLY < <(compgen -S = -W 'rule reach finest stops grooves narrowest pull scores' -- "$cur")
      return
      ;;
    --state | --fraction)
      return
      ;;
    -o | --output | --tools)
      mapfile -t COMPREPLY < <(compgen -f -- "$cur")
      return
      ;;
  esac
  if [[ $cur == -* ]]; then
    case $command in
      report) mapfile -t COMPREPLY < <(compgen -W '--remedies --quick --help' -- "$cur") ;;
      check) mapfile -t COMPREPLY < <(compgen -W '--json --quick --tools --tool --help' -- "$cur") ;;
      show) mapfile -t COMPREPLY < <(compgen -W '--output --flat --state --fraction --from --glue --help' -- "$cur") ;;
      steps) mapfile -t COMPREPLY < <(compgen -W '--output --sheet --large-type --sixteenths --text --json --tools --tool --help' -- "$cur") ;;
      template) mapfile -t COMPREPLY < <(compgen -W '--output --sheet --help' -- "$cur") ;;
      *) mapfile -t COMPREPLY < <(compgen -W '--help' -- "$cur") ;;
    esac
    return
  fi
  mapfile -t COMPREPLY < <(compgen -d -- "$cur"; compgen -f -X '!*.creasecard' -- "$cur")
}

complete -o filenames -F _creasewright_cli creasewright-cli
