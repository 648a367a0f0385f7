using System.Text;

namespace RepairShop.Testing.Banking;

/// <summary>
/// Statements written after the message structure of ISO 20022's BankToCustomerStatement (camt.053.001.nn): GrpHdr, Stmt with Acct, Bal, Ntry;
/// in an entry Amt, CdtDbtInd, RvslInd, Sts, BookgDt, ValDt, AcctSvcrRef, NtryDtls/TxDtls with Refs, Amt, RltdPties, RltdAgts, RmtInf. From version
/// 04 on a transaction carries Amt itself; from 08 on Sts holds Cd and a party stands in Pty. IBANs are published examples of ISO 13616.
/// </summary>
public static class CamtFiles
{
    public const string Ours = "DE89370400440532013000", Theirs = "GB82WEST12345698765432";

    public static byte[] Bytes(string xml) => Encoding.UTF8.GetBytes(xml);

    public static string Document(int version, string statements) =>
        $"""<?xml version="1.0" encoding="UTF-8"?><Document xmlns="urn:iso:std:iso:20022:tech:xsd:camt.053.001.{version:00}"><BkToCstmrStmt><GrpHdr><MsgId>M1</MsgId><CreDtTm>2026-11-25T06:00:00+01:00</CreDtTm></GrpHdr>{statements}</BkToCstmrStmt></Document>""";

    public static string Statement(string entries, string balances = "", string number = "S-11", string account = Ours) =>
        $"<Stmt><Id>{number}</Id><ElctrncSeqNb>11</ElctrncSeqNb><CreDtTm>2026-11-25T06:00:00</CreDtTm><Acct><Id><IBAN>{account}</IBAN></Id><Ccy>EUR</Ccy></Acct>{balances}{entries}</Stmt>";

    public static string Balance(string type, string amount, string direction = "CRDT") =>
        $"""<Bal><Tp><CdOrPrtry><Cd>{type}</Cd></CdOrPrtry></Tp><Amt Ccy="EUR">{amount}</Amt><CdtDbtInd>{direction}</CdtDbtInd><Dt><Dt>2026-11-24</Dt></Dt></Bal>""";

    public static string Entry(
        string amount, string details = "", string direction = "CRDT", int version = 8, string status = "BOOK", string day = "2026-11-24", string reference = "", string extra = "", string currency = "EUR") =>
        $"""
        <Ntry><NtryRef>1</NtryRef><Amt Ccy="{currency}">{amount}</Amt><CdtDbtInd>{direction}</CdtDbtInd>{extra}
        <Sts>{(version >= 8 ? $"<Cd>{status}</Cd>" : status)}</Sts><BookgDt><Dt>{day}</Dt></BookgDt><ValDt><Dt>{day}</Dt></ValDt>
        {(reference.Length > 0 ? $"<AcctSvcrRef>{reference}</AcctSvcrRef>" : "")}<BkTxCd><Domn><Cd>PMNT</Cd><Fmly><Cd>RCDT</Cd><SubFmlyCd>ESCT</SubFmlyCd></Fmly></Domn></BkTxCd>
        {(details.Length > 0 ? $"<NtryDtls>{details}</NtryDtls>" : "")}</Ntry>
        """;

    public static string Details(string name, string text, string structured = "", int version = 8, string amount = "", string endToEnd = "NOTPROVIDED", string iban = Theirs, string reference = "") =>
        $"""
        <TxDtls><Refs>{(reference.Length > 0 ? $"<AcctSvcrRef>{reference}</AcctSvcrRef>" : "")}<EndToEndId>{endToEnd}</EndToEndId></Refs>
        {(amount.Length == 0 ? "" : version >= 4 ? $"""<Amt Ccy="EUR">{amount}</Amt><CdtDbtInd>CRDT</CdtDbtInd>""" : $"""<AmtDtls><TxAmt><Amt Ccy="EUR">{amount}</Amt></TxAmt></AmtDtls>""")}
        <RltdPties><Dbtr>{(version >= 8 ? $"<Pty><Nm>{name}</Nm></Pty>" : $"<Nm>{name}</Nm>")}</Dbtr><DbtrAcct><Id><IBAN>{iban}</IBAN></Id></DbtrAcct></RltdPties>
        <RltdAgts><DbtrAgt><FinInstnId><BICFI>TESTGB2LXXX</BICFI></FinInstnId></DbtrAgt></RltdAgts>
        <RmtInf>{(text.Length > 0 ? $"<Ustrd>{text}</Ustrd>" : "")}{(structured.Length > 0 ? $"<Strd><CdtrRefInf><Tp><CdOrPrtry><Cd>SCOR</Cd></CdOrPrtry><Issr>ISO</Issr></Tp><Ref>{structured}</Ref></CdtrRefInf></Strd>" : "")}</RmtInf></TxDtls>
        """;

    /// <summary>One incoming payment.</summary>
    public static string Paid(string amount, string name, string text, string structured = "", string reference = "", string day = "2026-11-24", string iban = Theirs) =>
        Entry(amount, Details(name, text, structured, iban: iban), reference: reference, day: day);

    public static byte[] File(params string[] entries) => Bytes(Document(8, Statement(string.Concat(entries))));
}
