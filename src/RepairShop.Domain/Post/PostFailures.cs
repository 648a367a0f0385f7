using RepairShop.Domain.Results;

namespace RepairShop.Domain.Post;

public sealed record NoSuchMail() : NotFound("There is no such letter.");

public sealed record MailStillUnderWay() : Conflict("This letter is still under way: wait until it is sent or given up, then send it again.");

public sealed record MailRepeatedAlready() : Conflict("This letter was sent again already: look at the newer one.");

public sealed record NoMailAddress(string Customer)
    : Conflict($"{Customer} has no e-mail address: add one to the customer, or print the paper and hand it over.");

public sealed record MailAddressUnusable(string Address)
    : Conflict($"“{Address}” is not an e-mail address that can be written to: correct it with the customer.");
